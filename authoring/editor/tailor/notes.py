"""The plan as plain text for the clinician's own notes. No Qt here."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.editor.i18n import day_words, tr
from authoring.editor.parts.gauge import rung_words
from authoring.editor.tailor.faces import PlanFace
from authoring.editor.tailor.minutes_bar import minutes_words
from authoring.model.plan import Plan


def notes_of(plan: Plan, face: PlanFace) -> str:
    """What was chosen, how much of it, why, and what was left out."""
    return "\n".join(_lines(plan, face))


def _lines(plan: Plan, face: PlanFace) -> Iterator[str]:
    who = f", {plan.clinician}" if plan.clinician else ""
    yield f"{tr('Plan for {label}', label=plan.label or '–')}, {day_words(plan.created)}{who}"
    for stage in face.stages:
        name = stage.names[stage.number - 1]
        yield f"{stage.title}: {tr('stage {n}, {name}', n=stage.number, name=name)}"
        yield from (f"  {words}" for words in stage.reasons)
    days = f"; {face.days}" if face.days else ""
    yield f"{minutes_words(face)}{days}"
    for item in face.items:
        side = f", {item.side}" if item.side else ""
        yield f"{item.number}. {item.name}{side}, {rung_words(item.rung)}: {item.dose}"
        yield from (f"   {each.words}" for each in item.reasons)
        if item.seen:
            yield f"   {tr('Seen done')}"
    if face.left:
        yield tr("Left out")
        for left in face.left:
            later = f" ({tr('later')})" if left.later else ""
            yield f"- {left.name}{later}: {' '.join(left.reasons)}"
    yield from face.reasons
    if plan.review_on is not None:
        yield tr("Review on {day}", day=day_words(plan.review_on))
