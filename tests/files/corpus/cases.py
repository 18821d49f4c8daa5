"""Read the hand-written cases: good files, and bad ones with the faults they must show.

A bad case is told as ``text``, as ``hex`` bytes, as ``pieces`` (text and how often), as a
whole ``file``, or as a good file (``base``) with values to ``change`` and to ``drop`` by
path. It must show exactly ``faults`` (path and rule), or be ``refused`` with ``words``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import attrs

FOLDER = Path(__file__).parent
VALID = sorted((FOLDER / "valid").glob("*.json"))
BOOKS = sorted((FOLDER / "invalid").glob("*.json"))

_STEP = re.compile(r"\.?([^.\[\]]+)|\[(\d+)\]")


@attrs.frozen(eq=False)
class Case:
    """A bad file: its bytes and what must be said of it.

    ``faults`` holds (path, rule); where it is empty the file is ``refused`` by the
    exception of that name, with all ``words`` in its sentence or mend.
    """

    book: str
    name: str
    data: bytes
    faults: frozenset[tuple[str, str]]
    refused: str
    words: tuple[str, ...]
    whole: bool


def steps(path: str) -> list[str | int]:
    """The names and positions of a path such as ``stages[1].blocks[0]``."""
    return [int(index) if index else name for name, index in _STEP.findall(path)]


def _holder(data: Any, path: str) -> tuple[Any, Any]:
    *way, last = steps(path)
    for step in way:
        data = data[step]
    return data, last


def changed(base: Any, change: dict[str, Any], drop: list[str]) -> Any:
    """A good file with values put in and taken out by path."""
    data = json.loads(json.dumps(base))
    for path, value in change.items():
        holder, last = _holder(data, path)
        holder[last] = value
    for path in drop:
        holder, last = _holder(data, path)
        del holder[last]
    return data


def _bytes(case: dict[str, Any]) -> bytes:
    if "text" in case:
        return str(case["text"]).encode()
    if "hex" in case:
        return bytes.fromhex(case["hex"])
    if "pieces" in case:
        return "".join(text * times for text, times in case["pieces"]).encode()
    if "file" in case:
        return json.dumps(case["file"]).encode()
    base = json.loads((FOLDER / "valid" / f"{case['base']}.json").read_text(encoding="utf-8"))
    return json.dumps(changed(base, case.get("change", {}), case.get("drop", []))).encode()


def invalid_cases() -> Iterator[Case]:
    """Every bad case of every book."""
    for book in BOOKS:
        for case in json.loads(book.read_text(encoding="utf-8"))["cases"]:
            yield Case(
                book=book.stem,
                name=case["name"],
                data=_bytes(case),
                faults=frozenset((path, rule) for path, rule in case.get("faults", [])),
                refused=case.get("refused", ""),
                words=tuple(case.get("words", [])),
                whole="base" not in case,
            )
