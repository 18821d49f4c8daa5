"""The handout as plain data and picture files, as the page template reads it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from enum import Enum
from typing import Any, TypeAlias

import attrs

from authoring.handout.document import (
    BlockHeading,
    Exercise,
    HandoutDocument,
    Part,
    Picture,
    StageHeading,
)
from authoring.handout.words import part_words

Json: TypeAlias = Any  # str | int | bool | None | list[Json] | dict[str, Json]
SUFFIXES = {"image/png": "png", "image/jpeg": "jpg", "image/svg+xml": "svg"}
LINK_SCHEMES = ("http://", "https://", "mailto:", "tel:")


def picture_file(picture: Picture) -> str:
    """File name of ``picture`` by its content, so that one picture is stored once.

    Raises:
        KeyError: the media type is none that a handout can show.
    """
    digest = hashlib.sha256(picture.data).hexdigest()[:32]
    return f"{digest}.{SUFFIXES[picture.media_type]}"


def plain(document: HandoutDocument) -> Json:
    """The document as JSON values: a dictionary a class with its name as ``kind``.

    Each part and week gains the level of its heading, so that no level is skipped.
    """
    data = _plain(document)
    language, _, rest = document.language.partition("-")
    data["lang"] = language.lower()
    data["region"] = next((tag for tag in rest.split("-") if len(tag) == 2), None)
    levels = heading_levels(document.parts)
    for part, values, level in zip(document.parts, data["parts"], levels, strict=True):
        values["level"] = level
        values["letters"] = sum(map(len, part_words(part)))
        for week in values.get("weeks", ()) if values["kind"] == "Diary" else ():
            week["level"] = level + 1 if values["heading"] else level
        for group in values.get("groups", ()):
            group["outline"] = level
    return data


def heading_levels(parts: tuple[Part, ...]) -> Iterator[int]:
    """Level of each part's heading: 1 for sections and stages, deeper for what lies in them.

    A level is at most one deeper than the heading before it, as PDF/UA-1
    (ISO 14289-1, 7.4.2) demands.
    """
    before, in_block = 0, False
    for part in parts:
        match part:
            case BlockHeading():
                wanted, in_block = 2, True
            case Exercise():
                wanted = 3 if in_block else 2
            case StageHeading():
                wanted, in_block = 1, False
            case _:
                wanted = 1
        level = min(wanted, before + 1)
        if _has_heading(part):
            before = level
        yield level


def _has_heading(part: Part) -> bool:
    if isinstance(part, Exercise | StageHeading):
        return True
    if isinstance(part, BlockHeading):
        return bool(part.name)
    groups = getattr(part, "groups", ())
    return bool(getattr(part, "heading", "")) or any(group.lead for group in groups)


def _plain(value: object) -> Json:
    if isinstance(value, Picture):
        return _picture(value)
    kind = type(value)
    if attrs.has(kind):
        fields = {field.name: _plain(getattr(value, field.name)) for field in attrs.fields(kind)}
        if "href" in fields and not str(fields["href"]).startswith(LINK_SCHEMES):
            fields["href"] = None
        return {"kind": kind.__name__, **fields}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value.value if isinstance(value, Enum) else value


def _picture(picture: Picture) -> Json:
    return {
        "file": picture_file(picture),
        "media_type": picture.media_type,
        "alt": picture.alt,
        "caption": picture.caption,
        "width_px": picture.width_px,
        "height_px": picture.height_px,
    }
