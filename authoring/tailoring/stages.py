"""Which stage to follow: the one asked for, else the last whose entry criteria are all met."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.model.criterion import Criterion
from authoring.model.patient import Presentation
from authoring.model.plan import ChosenStage, Reason
from authoring.model.protocol import Branch, Protocol, Stage
from authoring.model.vocabulary import BranchAction, Side
from authoring.tailoring.cautioned import plain
from authoring.tailoring.criteria import Known, Verdict, judge
from authoring.tailoring.criterion_text import criterion_text
from authoring.tailoring.reasons import why
from authoring.tailoring.request import Request
from authoring.tailoring.terms import Terms


def known_for(presentation: Presentation, protocol: Protocol, side: Side, ask: Request) -> Known:
    """What a protocol's criteria are judged by on one side."""
    return Known(presentation, protocol.id, side, ask.today, ask.test_valid_days)


def choose_stage(
    protocol: Protocol, presentation: Presentation, side: Side, ask: Request, terms: Terms
) -> ChosenStage | None:
    """The stage to follow on one side, with reasons; None where the protocol has none.

    Args:
        presentation: the facts as for this side.
    """
    if not protocol.stages:
        return None
    known = known_for(presentation, protocol, side, ask)
    wanted = ask.stage_for(protocol.id, side)
    asked = next((stage for stage in protocol.stages if stage.id == wanted), None)
    if asked is not None:
        stage, reasons = (
            asked,
            [why("stage-asked"), *_gaps("entry", asked.entry, known, terms, protocol.language)],
        )
    else:
        stage, reasons = _proposed(protocol, known, terms)
    return ChosenStage(
        protocol=protocol.id,
        version=protocol.version,
        stage=stage.id,
        side=side,
        reasons=tuple(reasons[:60]),
    )


def _proposed(protocol: Protocol, known: Known, terms: Terms) -> tuple[Stage, list[Reason]]:
    stages, language = protocol.stages, protocol.language
    open_to = [index for index, stage in enumerate(stages) if _may_enter(protocol, index, known)]
    at = max(open_to, default=0)
    reasons = [why("stage-entered" if at in open_to else "stage-first")]
    if at == 0 and at not in open_to:
        reasons += _gaps("entry", stages[0].entry, known, terms, language)
    back = [c for c in stages[at].step_back if judge(c, known) is Verdict.MET]
    if back:
        texts = "; ".join(criterion_text(each, terms, language) for each in back)
        reasons.append(why("step-back-met", f"This leads a stage back: {texts}."))
        at = max(0, at - 1)
    if at + 1 < len(stages):
        reasons += _gaps("next", gate_to(protocol, at + 1), known, terms, language)
    return stages[at], reasons


def gate_to(protocol: Protocol, index: int) -> tuple[Criterion, ...]:
    """Criteria to enter a stage: its own, else those to move on from the stage before."""
    own = protocol.stages[index].entry
    return own or (protocol.stages[index - 1].move_on if index else ())


def _may_enter(protocol: Protocol, index: int, known: Known) -> bool:
    """Whether every criterion is met; a later stage without any criterion can't be entered."""
    gate = gate_to(protocol, index)
    if not gate:
        return index == 0
    return all(judge(criterion, known) is Verdict.MET for criterion in gate)


def _gaps(
    place: str, criteria: Iterable[Criterion], known: Known, terms: Terms, language: str
) -> Iterator[Reason]:
    """Criteria that are not met or not tested."""
    where = "To enter this stage" if place == "entry" else "To enter the next stage"
    for verdict, ending, words in (
        (Verdict.NOT_MET, "not-met", "not met"),
        (Verdict.NOT_TESTED, "not-tested", "not tested"),
    ):
        found = [c for c in criteria if judge(c, known) is verdict]
        if found:
            texts = "; ".join(criterion_text(each, terms, language) for each in found)
            yield why(f"{place}-{ending}", f"{where}, {words}: {texts}.")


def branches_met(stage: Stage, known: Known) -> tuple[Branch, ...]:
    """Branches of a stage whose finding is met as a measure."""
    return tuple(
        branch
        for branch in stage.branches
        if branch.when is not None and judge(branch.when, known) is Verdict.MET
    )


def branch_reasons(protocol: Protocol, branches: Iterable[Branch]) -> Iterator[Reason]:
    """What the protocol says to do on each finding."""
    for branch in branches:
        finding = plain(branch.finding, protocol.language)
        then = branch.then.value.replace("_", " ")
        words = f" {plain(branch.words, protocol.language)}" if branch.words is not None else ""
        yield why("branch", f"{finding} The protocol says: {then}.{words}")


def entries_left_out(branches: Iterable[Branch]) -> frozenset[str]:
    """Entries that the findings leave out."""
    return frozenset(
        entry
        for branch in branches
        if branch.then is BranchAction.LEAVE_OUT
        for entry in branch.entries
    )
