"""What the checks of one file may ask of the rest of the library.

Every question is remembered with its answer. The results of a file stay good as
long as the file is the same value and each question still has the same answer:
that is how :class:`authoring.checks.memo.Memo` knows what need not be checked anew.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Mapping
from typing import TypeAlias, TypeVar, cast

from attrs import field, frozen

from authoring.checks.walk import Walk, walk
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library, Term
from authoring.model.pose import Pose
from authoring.model.vocabulary import TermKind

_T = TypeVar("_T")
Question: TypeAlias = tuple[str, ...]


@frozen(eq=False)
class Shelf:
    """A library, indexed for look-ups, on the day of the check."""

    library: Library
    today: dt.date
    terms: Mapping[tuple[str, str], Term] = field(repr=False)
    poses: Mapping[str, Pose] = field(repr=False)
    clinic_words: frozenset[str] = field(repr=False)

    @classmethod
    def of(cls, library: Library, today: dt.date) -> Shelf:
        """Index a library. Of two terms with one kind and id the first counts."""
        manifest = library.manifest
        return cls(
            library,
            today,
            {(term.kind, term.id): term for term in reversed(manifest.terms)},
            {pose.slug: pose for pose in library.poses.values()},
            frozenset(word.lower() for word in manifest.clinic_words),
        )

    def answer(self, question: Question) -> object:
        """The answer to a question of a :class:`Context`; compared by ``is`` or ``==``."""
        what, *rest = question
        library = self.library
        match what, rest:
            case "term", [kind, term_id]:
                return self.terms.get((kind, term_id))
            case "card", [card_id]:
                return library.cards.get(card_id)
            case "pose", [name]:
                return self.poses.get(name) or library.stock_poses.get(name)
            case "kept", [protocol_id, version]:
                return library.kept is None or (protocol_id, version) in library.kept
            case (("protocol" | "image"), [name]):
                return name in (library.protocols if what == "protocol" else library.images)
        return {"clinic": library.clinic, "today": self.today, "words": self.clinic_words}[what]


class Context:
    """The library as seen from the checks of one file, with a record of what was asked."""

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf
        self._made: dict[tuple[str, int], tuple[object, object]] = {}
        self.asked: dict[Question, object] = {}

    def _ask(self, *question: str) -> object:
        if question not in self.asked:
            self.asked[question] = self._shelf.answer(question)
        return self.asked[question]

    def term(self, kind: TermKind, term_id: str) -> Term | None:
        """The term of this kind with this id, or None."""
        found = self._ask("term", kind, term_id)
        return found if isinstance(found, Term) else None

    def card(self, card_id: str) -> Card | None:
        """The card with this id, or None."""
        found = self._ask("card", card_id)
        return found if isinstance(found, Card) else None

    def pose(self, slug: str) -> Pose | None:
        """The pose that pictures call so, the library's own before the program's; or None."""
        found = self._ask("pose", slug)
        return found if isinstance(found, Pose) else None

    def has_protocol(self, protocol_id: str) -> bool:
        """Whether the library holds a protocol with this id."""
        return bool(self._ask("protocol", protocol_id))

    def keeps(self, protocol_id: str, version: str) -> bool:
        """Whether the history keeps this version, or nobody looked there."""
        return bool(self._ask("kept", protocol_id, version))

    def has_image(self, name: str) -> bool:
        """Whether the images folder holds a file of this name."""
        return bool(self._ask("image", name))

    @property
    def clinic(self) -> Clinic | None:
        """The clinic, or None where the library has none that can be read."""
        found = self._ask("clinic")
        return found if isinstance(found, Clinic) else None

    @property
    def today(self) -> dt.date:
        """The day of the check."""
        found = self._ask("today")
        assert isinstance(found, dt.date)  # noqa: S101 - narrows the type
        return found

    @property
    def clinic_words(self) -> frozenset[str]:
        """Words of the clinic that count as known, in lower case."""
        found = self._ask("words")
        return found if isinstance(found, frozenset) else frozenset()

    def once(self, what: str, value: object, make: Callable[[], _T]) -> _T:
        """What ``make`` gives for this very value, made once however many checks need it."""
        key = what, id(value)
        if key not in self._made:
            self._made[key] = (value, make())  # the value is held, so that its id stays its own
        return cast("_T", self._made[key][1])

    def walk(self, value: Node | Library) -> Walk:
        """Everything in a noun; of a library, everything in its ``library.json``."""
        root = value.manifest if isinstance(value, Library) else value
        return self.once("walk", root, lambda: walk(root))

    def wider(self, kind: TermKind, term_id: str) -> tuple[str, ...]:
        """A term's id, then the ids of ever wider terms; a cycle ends the row."""
        row = {term_id: None}
        here: str | None = term_id
        while here is not None:
            term = self.term(kind, here)
            here = term.broader if term is not None and term.broader not in row else None
            if here is not None:
                row[here] = None
        return tuple(row)

    def falls_under(self, kind: TermKind, term_id: str, wanted: Collection[str]) -> bool:
        """Whether a term, or a wider one, is among those wanted."""
        return bool(wanted) and any(each in wanted for each in self.wider(kind, term_id))
