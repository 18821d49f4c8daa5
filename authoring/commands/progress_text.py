"""Weeks ahead as a table for people and as JSON for scripts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from authoring.commands.progress import Progress
from authoring.dosage.arithmetic.figure import Figure
from authoring.dosage.phrases import Phrases
from authoring.dosage.progression.placed import Line
from authoring.dosage.progression.project import ProjectedWeek
from authoring.dosage.progression.told import Told
from authoring.dosage.shorthand import write_dose
from authoring.dosage.volume import Volume, add_up, session_volume, week_volume
from authoring.dosage.words import DoseWords
from authoring.model.base import evolve
from authoring.model.dose import Dose
from authoring.model.protocol import Protocol, Stage
from authoring.model.text import Text

_HEADS = ("week", "dose", "sets/wk", "reps/wk", "load/wk", "min", "change")


class ProgressWords:
    """Says projections in words.

    Args:
        phrases: English phrases, for a dose that the shorthand can't say.
    """

    def __init__(self, phrases: Phrases) -> None:
        self._phrases = phrases

    # ---- text ----------------------------------------------------------------------------

    def text(self, progress: Progress) -> str:
        """A table for each exercise, remarks under their week, the sources at the end."""
        parts = [progress.title]
        for line in progress.lines:
            parts += ["", *self._line(line)]
        if len(progress.lines) > 1:
            parts += ["", *self._totals(progress)]
        if not progress.lines:
            parts += ["", "There is no exercise in it."]
        return "\n".join(parts)

    def _line(self, line: Line) -> Iterator[str]:
        yield heading(line)
        told = (*line.told, *(line.projection.told if line.projection is not None else ()))
        yield from (f"  {remark(each)}" for each in told)
        if line.projection is None:
            return
        rows = [_HEADS, *(self._row(line, week) for week in line.projection.weeks)]
        widths = [max(len(row[column]) for row in rows) for column in range(len(_HEADS))]
        yield _cells(rows[0], widths)
        for row, week in zip(rows[1:], line.projection.weeks, strict=True):
            yield _cells(row, widths)
            yield from (f"        {remark(each)}" for each in week.told)

    def _row(self, line: Line, week: ProjectedWeek) -> tuple[str, ...]:
        figures = week_figures(line, week)
        return (
            str(week.number),
            self.dose(week.dose),
            figures["sets_per_week"].words(),
            figures["repetitions_per_week"].words(),
            figures["load_kg_per_week"].words("kg"),
            figures["minutes"].words(),
            week.change.value,
        )

    def dose(self, dose: Dose) -> str:
        """A dose in shorthand without how often, else in words."""
        bare = evolve(dose, frequency=None, sources=())
        return write_dose(bare) or DoseWords(self._phrases, "en").headline(bare)

    def _totals(self, progress: Progress) -> Iterator[str]:
        yield "Sets a week by region (an exercise for two regions counts for each)"
        for name, lines in stages_of(progress):
            if name:
                yield f"  {name[:1].upper()}{name[1:]}"
            before = ""
            for week in range(1, progress.weeks + 1):
                volume = add_up([line.trained(week) for line in lines])
                words = ", ".join(
                    f"{region.value.replace('_', ' ')} {one.sets.words()}"
                    for region, one in volume.by_region.items()
                )
                if words != before:
                    yield f"  from week {week}: {words}"
                before = words

    # ---- JSON -----------------------------------------------------------------------------

    def json(self, progress: Progress) -> dict[str, Any]:
        """Plain values: exercises, their weeks, figures with both ends (null: not known)."""
        return {
            "title": progress.title,
            "exercises": [self._exercise(line) for line in progress.lines],
            "totals": [
                {"stage": name or None, "week": week, **_totals(lines, week)}
                for name, lines in stages_of(progress)
                for week in range(1, progress.weeks + 1)
            ],
        }

    def _exercise(self, line: Line) -> dict[str, Any]:
        projection = line.projection
        told = (*line.told, *(projection.told if projection is not None else ()))
        return {
            "card": line.card.id if line.card is not None else None,
            "protocol": line.protocol.id if line.protocol is not None else None,
            "stage": line.stage.id if line.stage is not None else None,
            "entry": line.entry.id if line.entry is not None else None,
            "number": line.number,
            "rule": _rule(line),
            "told": [_told(each) for each in told],
            "weeks": [
                {
                    "week": week.number,
                    "dose": self.dose(week.dose),
                    "variant": week.variant.id if week.variant is not None else None,
                    "change": week.change.value,
                    **{name: _figure(one) for name, one in week_figures(line, week).items()},
                    "told": [_told(each) for each in week.told],
                }
                for week in (projection.weeks if projection is not None else ())
            ],
        }


def week_figures(line: Line, week: ProjectedWeek) -> dict[str, Figure]:
    """Sets, repetitions and load volume of the week, and minutes of one session."""
    whole = week_volume(line.trained(week.number))
    return {
        "sets_per_week": whole.sets,
        "repetitions_per_week": whole.repetitions,
        "load_kg_per_week": whole.load_kg,
        "minutes": session_volume(week.dose, line.sides).minutes * line.rounds,
    }


def stages_of(progress: Progress) -> Iterator[tuple[str, list[Line]]]:
    """The exercises by the stage they stand in; a plan is one whole."""
    found: dict[str, list[Line]] = {}
    for line in progress.lines:
        stage = line.stage if line.protocol is not None and not progress.plan else None
        name = "" if stage is None or line.protocol is None else _stage(line.protocol, stage)
        found.setdefault(name, []).append(line)
    yield from found.items()


def _stage(protocol: Protocol, stage: Stage) -> str:
    name = _best(stage.name, protocol.language)
    return f"stage {protocol.stages.index(stage) + 1} ({name})"


def heading(line: Line) -> str:
    """ "Exercise 4, stage 2: Step-up (two for two)"."""
    card = _best(line.card.title, line.card.language) if line.card is not None else "unknown card"
    where = [f"Exercise {line.number}"] if line.number is not None else []
    if line.protocol is not None and line.stage is not None:
        where.append(_stage(line.protocol, line.stage))
    rule = _rule(line)
    after = f", rule: {rule.replace('_', ' ')}" if rule else ""
    return f"{', '.join(where)}: {card}{after}" if where else f"{card}{after}"


def remark(told: Told) -> str:
    """One remark with its code and source."""
    source = f"; {told.source}" if told.source else ""
    return f"{told.text} [{told.code}{source}]"


def _best(text: Text, own: str) -> str:
    return text.best("en", own)


def _rule(line: Line) -> str | None:
    entry = line.entry
    return entry.progression.method.value if entry is not None and entry.progression else None


def _cells(row: tuple[str, ...], widths: list[int]) -> str:
    cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
    return f"  {'  '.join(cells)}".rstrip()


def _told(told: Told) -> dict[str, str]:
    return {"code": told.code, "text": told.text, "source": told.source}


def _figure(figure: Figure) -> dict[str, Any]:
    low = None if figure.unknown else round(figure.low, 2)
    high = None if figure.high is None else round(figure.high, 2)
    return {"low": low, "high": high, "notes": sorted(note.value for note in figure.notes)}


def _totals(lines: list[Line], week: int) -> dict[str, Any]:
    volume = add_up([line.trained(week) for line in lines])
    return {
        "by_region": {region.value: _volume(one) for region, one in volume.by_region.items()},
        "by_movement": {name: _volume(one) for name, one in volume.by_movement.items()},
        "all": _volume(volume.total),
    }


def _volume(volume: Volume) -> dict[str, Any]:
    return {
        "sets": _figure(volume.sets),
        "repetitions": _figure(volume.repetitions),
        "contacts": _figure(volume.contacts),
        "holds": _figure(volume.holds),
        "tension_s": _figure(volume.tension_s),
        "load_kg": _figure(volume.load_kg),
        "minutes": _figure(volume.minutes),
    }
