"""Packs for tests: a good one, and ways to spoil it with Python's own ``zipfile``."""

from __future__ import annotations

import hashlib
import io
import json
import tempfile
import warnings
import zipfile
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path
from typing import Any

from PIL import Image

from authoring import resources
from authoring.files.library import OpenLibrary, open_library
from authoring.files.pack_writing import make_pack
from authoring.model.base import evolve
from authoring.model.card import Picture
from authoring.model.text import Text

Files = dict[str, bytes]
PROTOCOL = "5e3892f3-0806-5d49-8432-4350fa4a855f"


@cache
def example() -> OpenLibrary:
    return open_library(resources.examples() / "larkfield")


def photo() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "teal").save(out, "PNG")
    return out.getvalue()


def with_photo(folder: Path) -> OpenLibrary:
    """The example with a photo on one card; its images lie in ``folder``."""
    opened = example()
    name = f"{hashlib.sha256(photo()).hexdigest()}.png"
    (folder / "images").mkdir()
    (folder / "images" / name).write_bytes(photo())
    card_id = next(opened.library.protocols[PROTOCOL].entries()).card
    card = opened.library.cards[card_id]
    picture = Picture(image=name, alt=Text.plain("A teal sheet"))
    first = evolve(card.variants[0], pictures=(picture,))
    card = evolve(card, variants=(first, *card.variants[1:]))
    library = evolve(opened.library, cards={**opened.library.cards, card_id: card})
    return evolve(opened, folder=folder, library=library)


@cache
def good_pack() -> bytes:
    """The pack of every protocol of the example, with a photo."""
    with tempfile.TemporaryDirectory() as folder:
        opened = with_photo(Path(folder))
        return make_pack(opened, sorted(opened.library.protocols)).data


@cache
def small_pack() -> bytes:
    return make_pack(example(), [PROTOCOL]).data


def files_of(data: bytes) -> Files:
    with zipfile.ZipFile(io.BytesIO(data)) as opened:
        return {info.filename: opened.read(info) for info in opened.infolist()}


def zipped(
    files: Iterable[tuple[str, bytes]], change: Callable[[zipfile.ZipInfo], None] | None = None
) -> bytes:
    """A zip by ``zipfile``; the last member's entry is put through ``change``."""
    every = list(files)
    out = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(out, "w") as writing:
        warnings.simplefilter("ignore")  # zipfile warns of a name used twice
        for number, (name, data) in enumerate(every, start=1):
            info = zipfile.ZipInfo(name)
            if change is not None and number == len(every):
                change(info)
            writing.writestr(info, data)
    return out.getvalue()


def relisted(files: Files, **changes: Any) -> bytes:
    """A pack whose manifest fits its files, with some of its fields changed."""
    head = json.loads(files["manifest.json"])
    head["members"] = [
        {"name": name, "sha256": hashlib.sha256(data).hexdigest(), "size": len(data)}
        for name, data in files.items()
        if name not in ("manifest.json", "signature.json")
    ]
    head |= changes
    return zipped({**files, "manifest.json": json.dumps(head).encode()}.items())


def edited(name: str, edit: Callable[[Any], Any], data: bytes | None = None) -> bytes:
    """A pack with one JSON file changed and the manifest fitting it; ``name`` may be a folder."""
    files = files_of(data or small_pack())
    found = next(each for each in files if each.startswith(name))
    value = json.loads(files[found])
    value = edit(value) or value
    files[found] = json.dumps(value).encode()
    return relisted(files)
