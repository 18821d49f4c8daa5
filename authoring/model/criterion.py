"""What must be true before moving on, stepping back or entering a stage."""

from __future__ import annotations

from typing import ClassVar, TypeAlias

from authoring.model.base import ModelError, Node, fact, many, node, optional, said, slug
from authoring.model.sentence import say
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Better,
    Comparator,
    SideComparison,
    Since,
    Unit,
    WindowKind,
)


@node
class Window(Node):
    """When the criterion must be true."""

    kind: WindowKind = fact("Kind of window.")
    count: int | None = optional("How many sessions, days or weeks.", low=1, high=104)


@node
class Measured(Node):
    """A measure compared with a value."""

    KIND: ClassVar[str] = "measured"

    id: str = slug("Id, unique in the file.")
    measure: str = slug("What is measured.", term="measure")
    comparator: Comparator = fact("How it is compared.")
    value: float = fact(
        "The value, or the lower end for 'between'.", low=-1_000_000, high=1_000_000
    )
    high: float | None = optional("The upper end for 'between'.", low=-1_000_000, high=1_000_000)
    unit: Unit = fact("Unit of the value.")
    side: SideComparison | None = optional("Which side, and against what.")
    better: Better = fact("Which way it improves.", default=Better.HIGHER)
    must_not_pass: float | None = optional(
        "Bound that must not be passed even while the criterion is met.",
        low=-1_000_000,
        high=1_000_000,
    )
    quality: Text | None = optional("What good form looks like, in observable words.")
    window: Window | None = optional("When it must be true.")
    patient: Text | None = optional("The same as 'I can …', with its number.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        between = self.comparator is Comparator.BETWEEN
        if between != (self.high is not None):
            raise ModelError(
                "high", say("high goes with the comparator 'between', and with no other.")
            )
        if self.high is not None and self.high < self.value:
            raise ModelError(
                "high", say("high must not be below value ({self}).", self=said(self.value))
            )


@node
class InWords(Node):
    """A quality gate in observable words, where nothing is measured."""

    KIND: ClassVar[str] = "in_words"

    id: str = slug("Id, unique in the file.")
    words: Text = fact("What is seen or said.")
    window: Window | None = optional("When it must be true.")
    patient: Text | None = optional("The same as 'I can …'.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class TimePassed(Node):
    """Time that must have passed."""

    KIND: ClassVar[str] = "time"

    id: str = slug("Id, unique in the file.")
    since: Since = fact("Where the count starts.")
    at_least: int = fact("How many at least.", low=1, high=1000)
    unit: Unit = fact("Days, weeks or sessions.", default=Unit.WEEKS)
    patient: Text | None = optional("The same in the patient's words.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        if self.unit not in (Unit.DAYS, Unit.WEEKS, Unit.SESSIONS):
            raise ModelError("unit", say("unit must be days, weeks or sessions."))


@node
class AllOf(Node):
    """Several criteria that must all be true (time and measure)."""

    KIND: ClassVar[str] = "all_of"

    id: str = slug("Id, unique in the file.")
    parts: tuple[Criterion, ...] = fact("The criteria.", fewest=2, longest=20)
    patient: Text | None = optional("The same as one sentence.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class AnyOf(Node):
    """Several criteria of which one, or so many, are enough."""

    KIND: ClassVar[str] = "any_of"

    id: str = slug("Id, unique in the file.")
    at_least: int = fact("How many of them must be true.", default=1, low=1, high=20)
    parts: tuple[Criterion, ...] = fact("The criteria.", fewest=2, longest=20)
    patient: Text | None = optional("The same as one sentence.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        if self.at_least > len(self.parts):
            raise ModelError(
                "at_least",
                say(
                    "at_least must be at most the number of parts ({n}), and is {at_least}.",
                    n=len(self.parts),
                    at_least=self.at_least,
                ),
            )


Criterion: TypeAlias = Measured | InWords | TimePassed | AllOf | AnyOf
