"""Terms by id: their names, and the wider terms that they fall under."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import field, frozen

from authoring.model.library import Term
from authoring.model.vocabulary import TermKind, WeightBearing


@frozen(eq=False)
class Terms:
    """The library's terms.

    Attributes:
        by_id: terms by kind and id.
    """

    by_id: Mapping[tuple[TermKind, str], Term]
    _wider: dict[tuple[TermKind, str], frozenset[str]] = field(factory=dict)

    @classmethod
    def of(cls, terms: Iterable[Term]) -> Terms:
        """Terms of a library or plan."""
        return cls({(term.kind, term.id): term for term in terms})

    def wider(self, kind: TermKind, term_id: str) -> frozenset[str]:
        """The id itself and those of all its wider terms."""
        key = (kind, term_id)
        found = self._wider.get(key)
        if found is None:
            found = self._wider[key] = frozenset(self._up(kind, term_id))
        return found

    def _up(self, kind: TermKind, term_id: str) -> list[str]:
        seen: list[str] = []
        at: str | None = term_id
        while at is not None and at not in seen:  # a library may hold a circle
            seen.append(at)
            term = self.by_id.get((kind, at))
            at = term.broader if term is not None else None
        return seen

    def all_wider(self, kind: TermKind, ids: Iterable[str]) -> frozenset[str]:
        """The ids and those of all their wider terms."""
        return frozenset[str]().union(*(self.wider(kind, term_id) for term_id in ids))

    def name(self, kind: TermKind, term_id: str) -> str:
        """The term's name in the library's language, its id in words where there is none."""
        term = self.by_id.get((kind, term_id))
        words = next(iter(term.name.values.values())) if term is not None else ""
        return (words or term_id.replace("-", " ")).strip()

    def names(self, kind: TermKind, ids: Iterable[str]) -> str:
        """Names in a list: "Jump, Hop"."""
        return ", ".join(self.name(kind, term_id) for term_id in sorted(set(ids)))

    def weight_on(self, limb: str, kind: TermKind, term_id: str) -> WeightBearing | None:
        """Weight that a position or demand puts on the leg or arm, wider terms asked in turn."""
        for each in self._up(kind, term_id):
            term = self.by_id.get((kind, each))
            weight = getattr(term, f"{limb}_weight", None)
            if isinstance(weight, WeightBearing):
                return weight
        return None
