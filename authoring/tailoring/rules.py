"""Hard rules: what excludes a variant for this patient, in these stages, with this kit.

Each rule looks at one variant alone, so that taking a restriction away never takes a
candidate away.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from attrs import frozen

from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.limits import LimbLimit
from authoring.model.load import Load
from authoring.model.patient import Presentation
from authoring.model.plan import Reason
from authoring.model.protocol import Protocol, Restriction, Stage
from authoring.model.vocabulary import CautionKind, PainAction, TermKind
from authoring.tailoring.cautioned import applying, plain
from authoring.tailoring.facts import Facts
from authoring.tailoring.kit import kit_reasons, support_reasons, too_heavy
from authoring.tailoring.limb import limb_reasons, limits_on, weight_reasons
from authoring.tailoring.pain import STOPS, PainFound
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import why
from authoring.tailoring.terms import Terms


@frozen
class Followed:
    """A stage that the plan follows: what it forbids holds for every card of the plan."""

    protocol: Protocol
    stage: Stage

    def restrictions(self, presentation: Presentation, today: dt.date) -> tuple[Restriction, ...]:
        """Restrictions still in force; one until a week ends only when the week is known."""
        week = _week(self, presentation, today)
        return tuple(
            each
            for each in self.stage.not_allowed
            if each.until_week is None or week is None or week <= each.until_week
        )

    def limb_limits(self, presentation: Presentation, today: dt.date) -> tuple[LimbLimit, ...]:
        """Limits on the limb that the stage sets, those of a brace among them."""
        week = _week(self, presentation, today)
        care = [
            item.limb
            for item in self.stage.care
            if item.limb is not None
            and (item.until_week is None or week is None or week <= item.until_week)
        ]
        stage = [each.limb for each in self.restrictions(presentation, today)]
        return tuple(limb for limb in (*stage, *care) if limb is not None)


def _week(followed: Followed, presentation: Presentation, today: dt.date) -> int | None:
    """The week of the programme, counted from 1; None where its start is not known."""
    starts = [
        each.programme_began
        for each in presentation.stages
        if each.protocol == followed.protocol.id and each.programme_began is not None
    ]
    past = [start for start in starts if start <= today]
    return (today - max(past)).days // 7 + 1 if past else None


@frozen(eq=False)
class Rules:
    """What the hard rules need beside a variant."""

    facts: Facts
    terms: Terms
    bans: tuple[tuple[Followed, Restriction], ...]
    limits: tuple[LimbLimit, ...]

    @classmethod
    def of(cls, facts: Facts, terms: Terms, followed: Iterable[Followed], today: dt.date) -> Rules:
        """Rules for one side that follows these stages."""
        stages = tuple(followed)
        presentation = facts.presentation
        bans = [(each, ban) for each in stages for ban in each.restrictions(presentation, today)]
        limbs = [limb for each in stages for limb in each.limb_limits(presentation, today)]
        return cls(facts, terms, tuple(bans), limits_on(facts, limbs))

    def reasons(
        self, place: Place, card: Card, variant: Variant, dose: Dose | None, pain: PainFound
    ) -> tuple[Reason, ...]:
        """Why a variant is excluded here; empty where it may be used."""
        facts, terms = self.facts, self.terms
        loads = first_loads(dose)
        return (
            *self._cautions(place, card, variant),
            *self._avoided(card, variant),
            *self._stages(card, variant),
            *self._surgeon(card, variant),
            *limb_reasons(card, variant, dose, facts, self.limits),
            *weight_reasons(card, variant, facts, terms),
            *kit_reasons(variant, facts, terms),
            *too_heavy(variant, loads, facts),
            *support_reasons(variant, loads, facts),
            *pain_reasons(place, card, variant, pain),
        )

    def _cautions(self, place: Place, card: Card, variant: Variant) -> Iterator[Reason]:
        protocol = place.protocol
        excluded = set(protocol.excluded) & self.facts.conditions if protocol is not None else ()
        if excluded:
            names = self.terms.names(TermKind.CONDITION, excluded)
            yield why("protocol-excludes", f"The protocol is not for: {names}.")
        kind = CautionKind.CONTRAINDICATION
        found = applying(kind, place, card, variant, self.facts, self.terms)
        for caution, language in found:
            yield why("contraindicated", f"Contraindicated: {plain(caution.text, language)}")

    def _avoided(self, card: Card, variant: Variant) -> Iterator[Reason]:
        avoid = self.facts.presentation
        for code, kind, ids, barred in (
            ("position-avoided", TermKind.POSITION, _position(variant), avoid.avoid_positions),
            ("demand-avoided", TermKind.DEMAND, variant.demands, avoid.avoid_demands),
            ("movement-avoided", TermKind.MOVEMENT, card.movements, avoid.avoid_movements),
        ):
            met = self.terms.all_wider(kind, ids) & set(barred)
            if met:
                yield why(code, f"To be avoided: {self.terms.names(kind, met)}.")

    def _stages(self, card: Card, variant: Variant) -> Iterator[Reason]:
        for followed, ban in self.bans:
            if self._ruled_out(card, variant, ban.demands, ban.movements, ban.positions):
                language = followed.protocol.language
                name = plain(followed.stage.name, language)
                words = plain(ban.text, language)
                yield why("stage-forbids", f"Not in the stage “{name}”: {words}")

    def _surgeon(self, card: Card, variant: Variant) -> Iterator[Reason]:
        for limit in self.facts.limits:
            if self._ruled_out(card, variant, limit.demands, limit.movements, limit.positions):
                yield why("surgeon-forbids", f"The surgeon's limit: {limit.text}")

    def _ruled_out(
        self,
        card: Card,
        variant: Variant,
        demands: Iterable[str],
        movements: Iterable[str],
        positions: Iterable[str],
    ) -> bool:
        return any(
            self.terms.all_wider(kind, ids) & set(barred)
            for kind, ids, barred in (
                (TermKind.DEMAND, variant.demands, demands),
                (TermKind.MOVEMENT, card.movements, movements),
                (TermKind.POSITION, _position(variant), positions),
            )
        )


def first_loads(dose: Dose | None) -> tuple[Load, ...]:
    """The loads that a dose begins with: those of the first week, where a table says so."""
    if dose is None:
        return ()
    first = dose.weeks[0].change.loads if dose.weeks and dose.weeks[0].from_week == 1 else None
    return dose.loads if first is None else first


def _position(variant: Variant) -> tuple[str, ...]:
    return (variant.position,) if variant.position is not None else ()


def pain_reasons(place: Place, card: Card, variant: Variant, pain: PainFound) -> Iterator[Reason]:
    """Pain in a band that says stop.

    "Stop and call" rules the exercise out. "Stop today" rules out the rung that was tried, and
    all above it; holds that the author permits and easier rungs stay.
    """
    if pain.action not in STOPS or card.id != place.card.id:
        return
    if pain.action is PainAction.STOP_TODAY and variant.rung < _rung_tried(place, card, pain):
        return
    entry = place.entry
    permitted = entry is not None and variant.id in entry.may_hold
    if pain.action is PainAction.STOP_TODAY and permitted and variant.id not in pain.tried:
        return
    yield why("pain-stop", pain.text)


def _rung_tried(place: Place, card: Card, pain: PainFound) -> int:
    """The lowest rung that hurt; where nobody said which, the one that the entry starts with."""
    tried = [variant.rung for variant in card.variants if variant.id in pain.tried]
    if tried:
        return min(tried)
    start = card.variant(place.entry.start) if place.entry is not None else None
    return start.rung if start is not None else 0
