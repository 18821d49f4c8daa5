"""Only an approved version that has nothing to mend prints for patients."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from authoring.commands.handout import Wish, compose_source, draft_reason
from authoring.commands.outcome import CommandError, Exit
from authoring.commands.source import Source
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Status
from tests.handout.clinic_sheets import PROTOCOLS, TODAY, example

ANKLE = PROTOCOLS["lateral-ankle-sprain-back-to-running"]
BANNER = "Draft, not for patients"


def made(protocol: Protocol, today: dt.date = TODAY, **library: object) -> tuple[str, str]:
    """Banner and reason of a protocol put into the example library."""
    whole: Library = evolve(example().library, protocols={protocol.id: protocol}, **library)
    opened = evolve(example(), library=whole)
    document, because = compose_source(Source(protocol, opened), Wish(stages=(1,)), today)
    return document.banner, because


@pytest.mark.parametrize("status", [Status.DRAFT, Status.IN_REVIEW])
def test_what_is_not_approved_says_so_on_every_page(status: Status) -> None:
    banner, because = made(evolve(ANKLE, status=status))
    assert banner == BANNER
    assert because == f"the protocol {ANKLE.slug!r} is not approved"


def test_an_approved_version_prints_for_patients() -> None:
    assert made(ANKLE) == ("", "")


def test_an_approved_version_with_a_must_result_is_a_draft_again() -> None:
    """Approved without a reviewer is a must (see the page of checks)."""
    banner, because = made(evolve(ANKLE, approvals=()))
    assert banner == BANNER
    assert "must be mended first (see 'rungbook check')" in because


def test_a_must_result_of_a_card_it_uses_counts_too() -> None:
    used = next(iter(ANKLE.entries())).card
    cards = example().library.cards

    def astray(card_id: str) -> dict[str, Card]:
        """The cards, one in a position that the library has no term for."""
        card = cards[card_id]
        variants = tuple(evolve(each, position="nowhere") for each in card.variants)
        return {**cards, card_id: evolve(card, variants=variants)}

    assert made(ANKLE, cards=astray(used))[0] == BANNER
    unused = next(card for card in cards if card not in {e.card for e in ANKLE.entries()})
    assert made(ANKLE, cards=astray(unused)) == ("", "")


def with_card(protocol: Protocol, **facts: object) -> dict[str, Card]:
    """The example's cards, the first that the protocol uses changed."""
    cards = example().library.cards
    used = next(iter(protocol.entries())).card
    return {**cards, used: evolve(cards[used], **facts)}


def test_words_that_nobody_approved_are_a_draft_though_the_protocol_still_says_approved() -> None:
    """The history keeps each version as it was approved."""
    banner, because = made(ANKLE, cards=with_card(ANKLE, title=Text.plain("Something else")))
    assert banner == BANNER
    assert because.endswith("was changed after the protocol was approved")
    banner, because = made(evolve(ANKLE, lead=Text.plain("Run at once.")))
    assert banner == BANNER
    assert because == f"the protocol {ANKLE.slug!r} was changed after it was approved"


def test_what_no_patient_reads_leaves_an_approval_in_force() -> None:
    assert made(ANKLE, cards=with_card(ANKLE, owner="Somebody else")) == ("", "")
    assert made(evolve(ANKLE, review_due=dt.date(2031, 1, 1))) == ("", "")


def test_an_approved_version_that_can_not_be_read_proves_nothing(tmp_path: Path) -> None:
    opened = evolve(example(), folder=tmp_path)
    kept = tmp_path / "history" / ANKLE.id / f"{ANKLE.version}.json"
    kept.parent.mkdir(parents=True)
    kept.write_text("{", encoding="utf-8")
    assert "in the history can't be read" in draft_reason(Source(ANKLE, opened), TODAY)


def test_a_retired_protocol_is_refused() -> None:
    with pytest.raises(CommandError, match="is retired, so no handout is made from it") as told:
        made(evolve(ANKLE, status=Status.RETIRED))
    assert told.value.status is Exit.FOUND


def test_without_a_clinic_nobody_could_be_called_so_nothing_is_made() -> None:
    with pytest.raises(CommandError, match="whom to call") as told:
        made(ANKLE, clinic=None)
    assert told.value.status is Exit.UNUSABLE
