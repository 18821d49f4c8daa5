"""The map's words: names, doses, criteria with the value first, what changed on a line."""

from __future__ import annotations

from functools import lru_cache

from authoring.dosage.shorthand import write_dose
from authoring.dosage.words import DoseWords
from authoring.editor.brief_dose import without_hold
from authoring.editor.criterion_words import CriterionWords
from authoring.editor.i18n import ltr, tr, tr_n
from authoring.editor.parts.gauge import rung_sign, rung_words
from authoring.editor.parts.icons import mode_words
from authoring.editor.session import Session
from authoring.editor.stage_map.model import Cell, Strand
from authoring.editor.vocabulary_words import words_of
from authoring.handout.catalogue import load_phrases
from authoring.model.base import evolve
from authoring.model.criterion import Criterion
from authoring.model.dose import Dose, Frequency, Holds
from authoring.model.edits.lines import LineName
from authoring.model.edits.steps import Changed
from authoring.model.library import Library
from authoring.model.load import BandLoad, BodyWeightLoad, Load
from authoring.model.protocol import Stage
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Sides


# Writing a dose reads it back, which takes a millisecond; a map has scores of them, and an
# edit changes one.
@lru_cache(maxsize=4096)
def _line(dose: Dose, language: str) -> str:
    short = write_dose(dose, pretty=True)
    return DoseWords(load_phrases("en"), language).headline(dose) if short is None else short


@lru_cache(maxsize=4096)
def _core(dose: Dose) -> Dose:
    """The part of a dose that fits an entry."""
    work = dose.work
    if isinstance(work, Holds):
        work = evolve(work, rest_between_holds=None)
    return evolve(
        dose,
        work=work,
        sides=dose.sides if dose.sides is Sides.EACH else None,
        loads=tuple(map(_without_kit, filter(_is_told, dose.loads))),
        rest=None,
        tempo=None,
        range=None,
        frequency=None,
        weeks=(),
        sessions=(),
        session_limit_min=None,
        minimum_sessions=None,
    )


def _is_told(load: Load) -> bool:
    return not isinstance(load, BodyWeightLoad)


def _without_kit(load: Load) -> Load:
    """A band's words say which it is; its place among the kit is for the form."""
    return evolve(load, band=None) if isinstance(load, BandLoad) and load.strength else load


class MapWords:
    """Words for one protocol, in the language its texts are edited in."""

    def __init__(self, session: Session, own: str) -> None:
        self._library: Library = session.library
        self._own = own
        self._language = session.text_language or own
        self._criteria = CriterionWords(self._library.manifest, own, self._language)

    def text(self, text: Text | None, own: str | None = None) -> str:
        """Words of a text, "" for none."""
        if text is None:
            return ""
        return text.best(self._language, own or self._own)

    # ---- entries ----------------------------------------------------------------

    def name(self, cell: Cell) -> str:
        """Name of an entry: its variant's, or what is missing."""
        if cell.card is None:
            return tr("Card is missing")
        if cell.variant is None:
            return tr("Variant is missing")
        return self.text(cell.variant.name, cell.card.language)

    def brief(self, dose: Dose | None) -> str:
        """The part of a dose that fits an entry: the work, its load, "each side"."""
        if dose is None:
            return tr("no dose")
        words = self.dose(_core(dose))
        if isinstance(dose.work, Holds):
            # Seconds, and the mark of holding beside them, say it already.
            words = without_hold(words)
        return tr("{dose}, by week", dose=words) if dose.weeks else words

    def dose(self, dose: Dose | None) -> str:
        """A dose in one line."""
        if dose is None:
            return tr("no dose")
        return _line(dose, self._own)

    def block(self, cell: Cell) -> str:
        """A word on the block of an entry, "" for a plain main block."""
        if not cell.tagged:
            return ""
        name = self.text(cell.block.name) or words_of(cell.block.kind)
        rounds = cell.block.rounds
        return f"{name} × {rounds.top}" if rounds is not None else name

    def spoken(self, cell: Cell, checks: int) -> str:
        """What a screen reader says of an entry: all that height and marks say to the eye."""
        parts = [f"{cell.number}", self.name(cell)]
        if cell.variant is not None and cell.rungs:
            low, high = min(cell.rungs), max(cell.rungs)
            parts.append(
                tr(
                    "{rung} of {low} to {high}",
                    rung=rung_words(cell.variant.rung),
                    low=rung_sign(low),
                    high=rung_sign(high),
                )
            )
            parts.append(mode_words(cell.variant.mode))
        dose = self.dose(cell.dose).replace("×", tr("by"))
        parts.append(" ".join(dose.split()))
        block = self.block(cell)
        if block:
            parts.append(block)
        if cell.entry.choice is not None:
            parts.append(tr("one of an either/or choice"))
        if checks:
            parts.append(tr_n("{n} check", "{n} checks", checks))
        return ", ".join(parts)

    # ---- lines --------------------------------------------------------------------

    def line(self, name: LineName) -> str:
        """Name of a progression line."""
        if name.words is not None:
            return self.text(name.words, name.language)
        return ", ".join(words_of(region) for region in name.regions) or tr("No card")

    def strand(self, strand: Strand) -> str:
        """What changes along a link, in a few words."""
        step = strand.step
        if step is None:
            return tr("new card")
        what = next((w for w in map(_changed, step.changed) if w), "")
        if step.changed and Changed.MODE in step.changed:
            what = _mode_change(step.before.mode, step.after.mode)
        if step.rungs:
            sign = ltr(rung_sign(step.rungs))
            return f"{sign}, {what}" if what else sign
        return what or tr("the same")

    def criterion(self, criterion: Criterion) -> tuple[str, str]:
        """A criterion as its value and what is measured; the value is "" where there is none."""
        return self._criteria.parts(criterion)

    def brief_criterion(self, criterion: Criterion) -> tuple[str, str]:
        """The same for a border with little room."""
        return self._criteria.brief(criterion)

    # ---- stages -----------------------------------------------------------------------

    def stage_facts(self, stage: Stage) -> tuple[str, ...]:
        """Usual weeks, and how long and how often, one line each."""
        lines = []
        weeks = stage.usual_weeks
        if weeks is not None and weeks.to_week is not None:
            lines.append(tr("Week {low} to {high}", low=weeks.from_week, high=weeks.to_week))
        elif weeks is not None:
            lines.append(tr("Week {low} onward", low=weeks.from_week))
        often = [*_minutes(stage), *_often(stage.frequency)]
        if often:
            lines.append(", ".join(often))
        return tuple(lines)


def _minutes(stage: Stage) -> list[str]:
    minutes = stage.session_minutes
    if minutes is None:
        return []
    span = f"{minutes.low}–{minutes.high}" if minutes.high is not None else f"{minutes.low}"
    return [tr("{n} min", n=span)]


def _often(frequency: Frequency | None) -> list[str]:
    if frequency is None:
        return []
    parts = []
    days = frequency.days_per_week
    if days is not None and days.low == 7:
        parts.append(tr("every day"))
    elif days is not None:
        span = f"{days.low}–{days.high}" if days.high is not None else f"{days.low}"
        parts.append(tr("{n} days", n=span))
    times = frequency.times_per_day
    if times is not None and times.top > 1:
        parts.append(tr("{n} a day", n=times.top))
    return parts


def _changed(what: Changed) -> str:
    return {
        Changed.VARIANT: "",
        Changed.MODE: "",
        Changed.POSITION: tr("position"),
        Changed.KIT: tr("kit"),
        Changed.SUPPORT: tr("support"),
        Changed.LIMBS: tr("limbs"),
        Changed.SIDES: tr("side"),
        Changed.WORK: tr("dose"),
        Changed.LOADS: tr("load"),
        Changed.REST: tr("rest"),
        Changed.TEMPO: tr("tempo"),
        Changed.RANGE: tr("range"),
        Changed.FREQUENCY: tr("how often"),
        Changed.OTHER: tr("dose"),
    }[what]


def _mode_change(before: Mode, after: Mode) -> str:
    if before is Mode.ISOMETRIC:
        return tr("moves")
    if after is Mode.ISOMETRIC:
        return tr("held")
    return mode_words(after).lower()
