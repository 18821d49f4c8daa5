"""One file to one noun and back: read, judge, migrate, structure; write newest.

Reading reports every fault at once. Unknown fields are kept and listed.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, TypeGuard

import attrs

from authoring.files.convert import from_json_noting, to_json
from authoring.files.errors import FileProblem
from authoring.files.faults import Fault, brief, faults, passes_schema, place
from authoring.files.fingerprint import Fingerprint, fingerprint
from authoring.files.formats import DOCUMENTS, FORMAT_VERSION, Document, migrate
from authoring.files.reading import read_file
from authoring.files.strict_json import read_json, write_json
from authoring.model.base import ModelError, Node, fields, said
from authoring.model.sentence import say


class NotThisFormat(FileProblem):
    """Sound JSON that is no file of ours, of another kind, or of a newer version."""


class Invalid(FileProblem):
    """A file of ours with faults; ``faults`` holds them all, in the order of the file."""

    def __init__(self, path: Path | str, found: tuple[Fault, ...]) -> None:
        first = found[0]
        sentence = first.sentence
        if first.path:
            sentence = say("at {place}, {fault}", place=first.path, fault=sentence)
        if len(found) > 1:
            sentence = say("{fault} (and {n} more)", fault=sentence, n=len(found) - 1)
        super().__init__(path, sentence, first.mend)
        self.faults = found


@attrs.frozen
class Loaded:
    """What a file held.

    Attributes:
        document: the noun.
        unknown: paths of fields this version does not know; they are kept.
        fingerprint: of the bytes read, to notice outside changes.
    """

    document: Document
    unknown: tuple[str, ...]
    fingerprint: Fingerprint


def read_document(path: Path, expected: type[Document] | None = None) -> Loaded:
    """Read a file of any of our formats.

    Args:
        path: the file.
        expected: refuse every other kind of file.

    Raises:
        FileProblem: it can't be read, is no JSON, no file of ours, or has faults.
    """
    return parse_document(read_file(path), path, expected)


def parse_document(
    data: bytes, source: Path | str, expected: type[Document] | None = None
) -> Loaded:
    """As :func:`read_document`, from bytes; ``source`` names them in sentences."""
    value = read_json(data, source=source)
    format_name, body = _identify(value, source, expected)
    document, noticed = _structure(format_name, body, source)
    unknown = tuple(unknown_fields(document)) if noticed else ()
    return Loaded(document, unknown, fingerprint(data))


def document_bytes(document: Document) -> bytes:
    """The bytes of the file that holds this noun, in the newest version."""
    return write_json(to_json(document))


def _identify(
    value: Any, source: Path | str, expected: type[Document] | None
) -> tuple[str, dict[str, Any]]:
    if not isinstance(value, dict) or "format" not in value:
        raise NotThisFormat(
            source,
            say("this is JSON, but not a Rungbook file: it does not say its format"),
            say("open a file that Rungbook wrote, or add a format such as 'rungbook/card'"),
        )
    name = value["format"]
    if not isinstance(name, str) or name not in DOCUMENTS:
        near = difflib.get_close_matches(str(name), DOCUMENTS, n=1)
        mend = (
            say("did you mean {near!r}?", near=near[0])
            if near
            else say("use one of: {allowed}", allowed=", ".join(DOCUMENTS))
        )
        raise NotThisFormat(source, say("{name} is no format of Rungbook", name=brief(name)), mend)
    if expected is not None and DOCUMENTS[name] is not expected:
        raise NotThisFormat(
            source,
            say(
                "this is a {name} file, and a {wanted} file is wanted",
                name=name,
                wanted=expected.FORMAT,
            ),
            say("open another"),
        )
    return name, _newest(value, source)


def _newest(value: dict[str, Any], source: Path | str) -> dict[str, Any]:
    version = value.get("format_version")
    if not _is_version(version):
        raise Invalid(
            source,
            (
                Fault(
                    "format_version",
                    say("the format version must be a whole number from 1"),
                    say("write {version}", version=FORMAT_VERSION),
                    "format_version",
                ),
            ),
        )
    if version > FORMAT_VERSION:
        raise NotThisFormat(
            source,
            say(
                "this file is of format version {version}, made by a newer Rungbook than this "
                "one, which reads up to version {newest}",
                version=said(version),
                newest=FORMAT_VERSION,
            ),
            say("update Rungbook, or ask for the file in an older version"),
        )
    return migrate(value, int(version))


def _is_version(version: object) -> TypeGuard[int | float]:
    # JSON knows one kind of number: 1.0 is as good as 1.
    if isinstance(version, bool) or not isinstance(version, int | float):
        return False
    return version >= 1 and version == int(version)


def _structure(format_name: str, data: dict[str, Any], source: Path | str) -> tuple[Document, bool]:
    """The noun, and whether it holds fields this version does not know."""
    if not passes_schema(format_name, data):
        raise Invalid(source, faults(format_name, data))
    try:
        return from_json_noting(DOCUMENTS[format_name], data)
    except (ModelError, ValueError) as error:
        found = faults(format_name, data)
        if not found:
            raise
        raise Invalid(source, found) from error


def unknown_fields(value: object, at: tuple[str | int, ...] = ()) -> Iterator[str]:
    """Paths of the fields kept in ``extra``, anywhere in a value."""
    if isinstance(value, Node):
        yield from (place((*at, key)) for key in value.extra)
        for field in fields(type(value)):
            if field.name != "extra":
                yield from unknown_fields(getattr(value, field.name), (*at, field.name))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from unknown_fields(item, (*at, index))
