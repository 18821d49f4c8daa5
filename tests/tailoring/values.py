"""Presentations, requests and a small invented library to tailor from."""

from __future__ import annotations

import datetime as dt
from functools import cache
from typing import Any

from authoring.model.card import Card
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.patient import FlagAnswer, OwnedKit, Presentation
from authoring.model.plan import Plan, PlanItem
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Answer, Side, TermKind
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from tests.checks.build import CARD, CARD_ID, CLINIC, PROTOCOL, PROTOCOL_ID, TERMS, put, variant
from tests.handout.clinic_sheets import example

TODAY = dt.date(2026, 3, 2)
PATIENT_ID = "00000000-0000-4000-8000-000000000100"

__all__ = ["CARD", "CARD_ID", "PROTOCOL", "PROTOCOL_ID", "put", "variant"]


def patient(**facts: Any) -> Presentation:
    """A patient with nothing to forbid: right side, no pain, no limits."""
    return Presentation(**{"id": PATIENT_ID, "label": "A17", "side": Side.RIGHT, **facts})


def small_library(
    card: Card = CARD, protocol: Protocol = PROTOCOL, *more: Card, terms: tuple[Term, ...] = TERMS
) -> Library:
    manifest = LibraryFile(id=PATIENT_ID, name="Small", language="en", terms=terms)
    cards = {each.id: each for each in (card, *more)}
    return Library(manifest=manifest, clinic=CLINIC, cards=cards, protocols={protocol.id: protocol})


def small_plan(
    presentation: Presentation | None = None,
    library: Library | None = None,
    stage: str = "strong",
    **ask: Any,
) -> Plan:
    """The small protocol's plan in a stage."""
    wishes = (StageWish(PROTOCOL_ID, stage),) if stage else ()
    asked = {"today": TODAY, "protocols": (PROTOCOL_ID,), "stages": wishes, **ask}
    return propose(library or small_library(), presentation or patient(), Request(**asked))


def only(plan: Plan) -> PlanItem:
    """The only exercise of a plan."""
    (item,) = plan.items
    return item


def codes(holder: Any) -> list[str]:
    """Codes of the reasons of a plan, an item, what is left out, or a stage."""
    return [reason.code for reason in holder.reasons]


def left_codes(plan: Plan) -> list[str]:
    return [code for left in plan.left_out for code in codes(left)]


@cache
def clinic_library() -> Library:
    """The example clinic's library."""
    return example().library


def all_no(*protocols: Protocol) -> tuple[FlagAnswer, ...]:
    """Every red flag of protocols answered no."""
    return tuple(
        FlagAnswer(protocol=protocol.id, flag=flag.id, answer=Answer.NO)
        for protocol in protocols
        for flag in protocol.red_flags
    )


def owned(*kit: str, **facts: Any) -> tuple[OwnedKit, ...]:
    return tuple(OwnedKit(kit=each, **facts) for each in kit)


def term(kind: TermKind, term_id: str, **facts: Any) -> Term:
    from tests.checks.build import term as build_term

    return build_term(kind, term_id, **facts)
