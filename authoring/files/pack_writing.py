"""A pack from a library: chosen protocols with all they need, the same bytes every time."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from attrs import frozen

from authoring.files.documents import document_bytes
from authoring.files.errors import FileProblem
from authoring.files.library import OpenLibrary, read_images
from authoring.files.pack_names import MANIFEST_NAME, SIGNATURE_NAME
from authoring.files.pack_needs import card_ids, circle, image_names, pose_slugs
from authoring.files.pack_pictures import picture_fault
from authoring.files.pack_scan import Suspicion, suspicions
from authoring.files.strict_json import read_json
from authoring.files.zip_reading import zip_bytes
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.pack import PackManifest, PackMember
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.sentence import Sentence, say
from authoring.tailoring.embed import terms_used
from authoring.tailoring.terms import Terms

ENDING = ".rungpack"
_Noun = TypeVar("_Noun")


class CannotPack(FileProblem):
    """Something a protocol needs is missing or can't leave the library."""


@frozen
class PackMade:
    """A pack ready to be written.

    Attributes:
        data: its bytes.
        manifest: what is in it.
        suspicions: words that look like a patient's data.
    """

    data: bytes
    manifest: PackManifest
    suspicions: tuple[Suspicion, ...]


def make_pack(
    opened: OpenLibrary,
    protocols: Sequence[str],
    sign: Callable[[bytes], bytes] | None = None,
) -> PackMade:
    """The pack of some protocols of a library.

    Protocols that a branch sends a patient to come along.

    Args:
        opened: the library.
        protocols: ids.
        sign: gives the bytes of ``signature.json`` for those of the manifest.

    Raises:
        CannotPack: a card, pose or picture is missing, or a picture holds more than pixels.
        FileProblem: a picture can't be read.
    """
    library = opened.library
    chosen = _with_branches(library, protocols, opened)
    cards = [_needed(library.cards.get(each), opened, each) for each in card_ids(chosen)]
    poses = _poses(library, cards, opened)
    names = image_names(cards)
    images = read_images(opened.folder, names)
    for name in names:
        _refuse(_picture_fault(images.get(name), name), opened, name)
    terms = terms_used([*chosen, *cards], Terms.of(library.manifest.terms))
    _refuse(circle(chosen, terms), opened, library.manifest.name)
    texts: tuple[Protocol | Card, ...] = (*chosen, *cards)
    nouns: tuple[Protocol | Card | Pose, ...] = (*texts, *poses)
    files = {_name(each): document_bytes(each) for each in nouns}
    files |= {f"images/{name}": images[name] for name in names}
    manifest = PackManifest(
        origin=_origin(library),
        language=library.manifest.language,
        protocols=tuple(protocol.id for protocol in chosen),
        licences=_each(each.licence for each in nouns),
        attribution=_each(who for each in texts for who in (*each.authors, each.owner)),
        terms=terms,
        members=tuple(
            PackMember(name=name, sha256=hashlib.sha256(data).hexdigest(), size=len(data))
            for name, data in files.items()
        ),
        invented=all(each.invented for each in texts),
    )
    head = document_bytes(manifest)
    signature = {SIGNATURE_NAME: sign(head)} if sign is not None else {}
    data = zip_bytes({MANIFEST_NAME: head, **signature, **files})
    return PackMade(data, manifest, found_in(files))


def found_in(files: dict[str, bytes]) -> tuple[Suspicion, ...]:
    """What looks like a patient's data in the JSON files of a pack."""
    return tuple(
        each
        for name, data in files.items()
        if name.endswith(".json")
        for each in suspicions(read_json(data, name), name)
    )


def _with_branches(
    library: Library, wanted: Sequence[str], opened: OpenLibrary
) -> tuple[Protocol, ...]:
    found: dict[str, Protocol] = {}
    waiting = list(wanted)
    while waiting:
        key = waiting.pop(0)
        if key in found:
            continue
        protocol = found[key] = _needed(library.protocols.get(key), opened, key)
        waiting += [
            branch.protocol
            for stage in protocol.stages
            for branch in stage.branches
            if branch.protocol is not None and branch.protocol in library.protocols
        ]
    return tuple(found[key] for key in sorted(found))


def _needed(found: _Noun | None, opened: OpenLibrary, name: str) -> _Noun:
    if found is None:
        raise CannotPack(
            opened.folder,
            say("{name} is not in the library, and a protocol needs it", name=name),
            say("put it back, or take it out of the protocol"),
        )
    return found


def _poses(library: Library, cards: Iterable[Card], opened: OpenLibrary) -> tuple[Pose, ...]:
    """The library's own poses that cards show; those of the program are there already."""
    own = {pose.slug: pose for pose in library.poses.values()}
    slugs = pose_slugs(cards)
    for name in slugs:
        _needed(own.get(name) or library.stock_poses.get(name), opened, name)
    return tuple(own[name] for name in slugs if name in own)


def _picture_fault(data: bytes | None, name: str) -> Sentence | None:
    if data is None:
        return say("is not in the library")
    if hashlib.sha256(data).hexdigest() != name.partition(".")[0]:
        return say("was changed since it was put into the library")
    return picture_fault(data, name.rpartition(".")[2])


def _refuse(wrong: Sentence | None, opened: OpenLibrary, name: str) -> None:
    if wrong is not None:
        raise CannotPack(
            opened.folder,
            say("{name}: {wrong}", name=name, wrong=wrong),
            say("mend it in the library, then pack again"),
        )


def _name(document: Protocol | Card | Pose) -> str:
    match document:
        case Protocol():
            return f"protocols/{document.id}.protocol.json"
        case Card():
            return f"cards/{document.id}.card.json"
        case Pose():
            return f"poses/{document.id}.pose.json"


def _origin(library: Library) -> str:
    clinic = library.clinic
    name = clinic.name.best(library.manifest.language, clinic.language) if clinic else ""
    return (name.strip() or library.manifest.name.strip() or "?")[:200]


def _each(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted({each.strip() for each in words if each.strip()}))
