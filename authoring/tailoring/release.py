"""Whether a plan may be printed, and whether its exercise pages are withheld."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from authoring.model.caution import RedFlag
from authoring.model.patient import Presentation
from authoring.model.plan import Plan, Reason
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Answer
from authoring.tailoring.cautioned import plain
from authoring.tailoring.reasons import why


@frozen
class RaisedFlag:
    """A red flag that is answered yes, with the protocol that asks it."""

    protocol: Protocol
    flag: RedFlag


@frozen
class Release:
    """What may leave the clinic.

    Attributes:
        may_print: False while a red flag is not asked, or an override lacks its second sign.
        withheld: whether only the raised flags' actions print, and no exercise.
        raised: red flags answered yes, most urgent first.
        not_asked: red flags that were not asked.
        reasons: why not, one sentence each.
    """

    may_print: bool
    withheld: bool
    raised: tuple[RaisedFlag, ...]
    not_asked: tuple[RaisedFlag, ...]
    reasons: tuple[Reason, ...]


def answers_of(
    presentation: Presentation | None, protocols: Iterable[Protocol]
) -> Iterator[tuple[RaisedFlag, Answer]]:
    """Every red flag of the protocols with its answer; of several answers the gravest."""
    given: dict[tuple[str, str], set[Answer]] = {}
    for answer in presentation.red_flags if presentation is not None else ():
        given.setdefault((answer.protocol, answer.flag), set()).add(answer.answer)
    for protocol in protocols:
        for flag in protocol.red_flags:
            answers = given.get((protocol.id, flag.id), set())
            if Answer.YES in answers:
                yield RaisedFlag(protocol, flag), Answer.YES
            elif not answers or Answer.NOT_ASKED in answers:
                yield RaisedFlag(protocol, flag), Answer.NOT_ASKED
            else:
                yield RaisedFlag(protocol, flag), Answer.NO


def flag_reasons(
    presentation: Presentation | None, protocols: Iterable[Protocol]
) -> Iterator[Reason]:
    """Red flags that withhold or block the print, those answered yes first."""
    found = list(answers_of(presentation, protocols))
    for wanted, code, words in (
        (Answer.YES, "red-flag-yes", "Yes to"),
        (Answer.NOT_ASKED, "red-flag-not-asked", "Not asked"),
    ):
        for raised, answer in found:
            if answer is wanted:
                question = plain(raised.flag.question, raised.protocol.language)
                yield why(code, f"{words}: {question}")


def release(plan: Plan) -> Release:
    """Whether a plan may be printed.

    Red flags of every protocol in it are answered singly: one that was not asked blocks the
    print, one that is answered yes withholds the exercises. A raised flag prints its action
    even while another was not asked: what is urgent must not wait for a form.
    """
    found = list(answers_of(plan.presentation, plan.protocols))
    raised = [flag for flag, answer in found if answer is Answer.YES]
    order = list(type(raised[0].flag.urgency)) if raised else []
    raised.sort(key=lambda each: order.index(each.flag.urgency))
    open_flags = tuple(flag for flag, answer in found if answer is Answer.NOT_ASKED)
    unsigned = _unsigned(plan)
    reasons = (*flag_reasons(plan.presentation, plan.protocols), *unsigned)
    return Release(
        may_print=bool(raised) or not (open_flags or unsigned),
        withheld=bool(raised),
        raised=tuple(raised),
        not_asked=open_flags,
        reasons=reasons,
    )


def _unsigned(plan: Plan) -> tuple[Reason, ...]:
    """Overrides of safety rules that wait for a second clinician's sign."""
    waiting = any(reason.code == "countersign-missing" for reason in plan.reasons)
    return (why("countersign-missing"),) if waiting else ()
