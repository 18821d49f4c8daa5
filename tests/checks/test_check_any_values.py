"""Checks take whatever the model can hold: no value stops them."""

import datetime as dt

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from authoring.checks.library import check_library
from authoring.checks.memo import Memo
from authoring.checks.result import CheckResult, Subject
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library, LibraryFile
from authoring.model.protocol import Entry, Protocol
from tests.checks.build import get
from tests.strategies.values import values_of


def tied(entry: Entry, card: Card) -> Entry:
    """The entry with a card that there is, and variants of it."""
    ids = tuple(variant.id for variant in card.variants)[:1] or (entry.start,)
    return evolve(entry, card=card.id, start=ids[0], may_hold=ids, dose_fits=ids)


def using(protocol: Protocol, card: Card) -> Protocol:
    stages = []
    for stage in protocol.stages:
        blocks = [
            evolve(block, entries=tuple(tied(entry, card) for entry in block.entries))
            for block in stage.blocks
        ]
        stages.append(evolve(stage, blocks=tuple(blocks)))
    return evolve(protocol, stages=tuple(stages))


@st.composite
def libraries(draw: st.DrawFn) -> Library:
    card, protocol = draw(values_of(Card)), draw(values_of(Protocol))
    return Library(
        manifest=draw(values_of(LibraryFile)),
        clinic=draw(st.none() | values_of(Clinic)),
        cards={card.id: card},
        protocols={protocol.id: draw(st.sampled_from([protocol, using(protocol, card)]))},
    )


def subject_of(library: Library, result: CheckResult) -> object:
    match result.subject:
        case Subject.CARD:
            return library.cards[result.subject_id]
        case Subject.PROTOCOL:
            return library.protocols[result.subject_id]
        case Subject.CLINIC:
            return library.clinic
        case _:
            return library.manifest


@settings(
    max_examples=50,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(libraries(), st.dates())
def test_any_library_can_be_checked(library: Library, today: dt.date) -> None:
    memo = Memo()
    found = check_library(library, today, memo)
    assert found == check_library(library, today, memo) == check_library(library, today)
    for result in found:
        get(subject_of(library, result), result.path)
        assert result.sentence.endswith((".", "?"))
        assert result.mend.endswith((".", "?"))
        assert "\n" not in result.sentence
