"""Results that need not be found anew: the file and all it asked about are the same.

After one edit in a library of a thousand cards, one card is a new value and the rest
are the very same objects. For those only the questions they asked of the library are
asked again (see :mod:`authoring.checks.context`), which takes no time to speak of.
"""

from __future__ import annotations

import datetime as dt
import weakref
from collections.abc import Callable

from attrs import frozen

from authoring.checks.context import Context, Question, Shelf
from authoring.checks.result import CheckResult
from authoring.model.base import Node


@frozen(eq=False)
class _Kept:
    value: weakref.ref[Node]
    asked: dict[Question, object]
    results: tuple[CheckResult, ...]


def _same(one: object, other: object) -> bool:
    """Whether two answers are the same: nouns by identity, the rest by value."""
    if one is other:
        return True
    by_value = (bool, dt.date, frozenset)
    return isinstance(one, by_value) and type(one) is type(other) and one == other


class Memo:
    """Results of files checked before. A file that nobody holds any more is forgotten.

    One memo serves one thread at a time. Values are told apart by identity, since
    comparing two cards by value costs as much as checking one.
    """

    def __init__(self) -> None:
        self._kept: dict[int, _Kept] = {}

    def __len__(self) -> int:
        return len(self._kept)

    def results(
        self,
        value: Node,
        shelf: Shelf,
        run: Callable[[Context], tuple[CheckResult, ...]],
    ) -> tuple[CheckResult, ...]:
        """The results kept for ``value`` if they still hold, else those of ``run``, kept."""
        kept = self._kept.get(id(value))
        if kept is not None and kept.value() is value and _holds(kept, shelf):
            return kept.results
        context = Context(shelf)
        found = run(context)
        self._keep(value, context.asked, found)
        return found

    def _keep(
        self, value: Node, asked: dict[Question, object], results: tuple[CheckResult, ...]
    ) -> None:
        key = id(value)

        def forget(gone: weakref.ref[Node]) -> None:
            kept = self._kept.get(key)
            if kept is not None and kept.value is gone:  # the id may be another value's by now
                del self._kept[key]

        self._kept[key] = _Kept(weakref.ref(value, forget), asked, results)


def _holds(kept: _Kept, shelf: Shelf) -> bool:
    return all(_same(answer, shelf.answer(question)) for question, answer in kept.asked.items())
