"""Protocol checks of a large library in a process of their own. No Qt here.

Checking a thousand cards takes seconds of pure Python work, which on a thread would
make the window stutter. The other process keeps the library, and is sent only what an
edit changed, in pieces small enough not to hold the window up while they are packed.
"""

from __future__ import annotations

import datetime as dt
import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import TypeVar

from authoring.checks.library import check_library
from authoring.checks.memo import Memo
from authoring.checks.result import CheckResult
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol

FEW = 100
"""Libraries of fewer files than this are checked on the thread that asks."""
_PIECE = 20
_POLL_S = 0.05
_T = TypeVar("_T")


class ChecksFailed(Exception):  # noqa: N818 - shown to people: one sentence
    """The other process came to an end, or could not do its work."""

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self.sentence = words


# ---- the other process ----------------------------------------------------------------


def serve(line: Connection) -> None:
    """Answer requests until the line is closed.

    Requests: ("frame", library without cards and protocols) and ("put", nouns) keep what
    they bring, as the very objects that the memory of results goes by; ("check", number,
    ids of the cards, ids of the protocols, day) answers with the number and the results.
    """
    if hasattr(os, "nice"):
        os.nice(5)
    cards: dict[str, Card] = {}
    protocols: dict[str, Protocol] = {}
    frame: Library | None = None
    memo = Memo()
    while True:
        try:
            request = line.recv()
        except (EOFError, OSError):
            return
        if request[0] == "put":
            for noun in request[1]:
                (cards if isinstance(noun, Card) else protocols)[noun.id] = noun
        elif request[0] == "frame":
            frame = request[1]
        elif frame is not None:
            _, number, card_ids, protocol_ids, today = request
            cards = {key: cards[key] for key in card_ids}
            protocols = {key: protocols[key] for key in protocol_ids}
            library = evolve(frame, cards=cards, protocols=protocols)
            line.send((number, check_library(library, today, memo)))


# ---- this process -----------------------------------------------------------------------


class LibraryJudge:
    """Checks libraries, one after the other, each the next state of the one before.

    Used from one thread. Small libraries are checked right here.
    """

    def __init__(self) -> None:
        self._memo = Memo()
        self._process: BaseProcess | None = None
        self._line: Connection | None = None
        self._sent: dict[str, Card | Protocol] = {}
        self._number = 0
        self._frame: tuple[object, ...] | None = None

    def __call__(
        self, library: Library, today: dt.date, wanted: Callable[[], None]
    ) -> Sequence[CheckResult]:
        """All results.

        Args:
            wanted: raises where the results are not wanted any more.

        Raises:
            ChecksFailed: the other process came to an end.
        """
        if len(library.cards) + len(library.protocols) < FEW:
            return check_library(library, today, self._memo)
        try:
            return self._ask(library, today, wanted)
        except (EOFError, OSError) as error:
            self.close()
            sentence = "The Protocol checks stopped; they begin anew at the next edit."
            raise ChecksFailed(sentence) from error

    def _ask(
        self, library: Library, today: dt.date, wanted: Callable[[], None]
    ) -> Sequence[CheckResult]:
        line = self._open()
        nouns: dict[str, Card | Protocol] = {**library.cards, **library.protocols}
        new = [noun for key, noun in nouns.items() if self._sent.get(key) is not noun]
        for piece in _pieces(new, _PIECE):
            wanted()
            line.send(("put", piece))
            self._sent.update((noun.id, noun) for noun in piece)
        self._sent = {key: self._sent[key] for key in nouns}
        self._number += 1
        frame = (library.manifest, library.clinic, library.images)
        if self._frame is None or any(a is not b for a, b in zip(frame, self._frame, strict=True)):
            line.send(("frame", evolve(library, cards={}, protocols={})))
            self._frame = frame
        line.send(("check", self._number, list(library.cards), list(library.protocols), today))
        return self._answer(line, wanted)

    def _answer(self, line: Connection, wanted: Callable[[], None]) -> Sequence[CheckResult]:
        while True:
            if line.poll(_POLL_S):
                number, results = line.recv()
                if number == self._number:
                    answer: Sequence[CheckResult] = results
                    return answer
            wanted()

    def _open(self) -> Connection:
        if self._line is not None and self._process is not None and self._process.is_alive():
            return self._line
        self.close()
        context = multiprocessing.get_context("spawn")
        here, there = context.Pipe()
        process = context.Process(target=serve, args=(there,), daemon=True, name="rungbook-checks")
        process.start()
        there.close()
        self._process, self._line, self._sent, self._frame = process, here, {}, None
        return here

    def close(self) -> None:
        """End the other process."""
        if self._line is not None:
            self._line.close()
        if self._process is not None:
            self._process.terminate()
            self._process.join(timeout=2)
        self._process, self._line, self._sent = None, None, {}


def _pieces(items: Sequence[_T], size: int) -> Iterator[list[_T]]:
    for start in range(0, len(items), size):
        yield list(items[start : start + size])
