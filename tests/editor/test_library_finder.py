"""Searching a library that is still being read."""

import datetime as dt

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.library_room import finder as finder_module
from authoring.editor.library_room.finder import finder_of
from authoring.editor.search.index import Found, Query
from authoring.editor.session import Session
from authoring.model.base import evolve
from tests.editor.conftest import make_card

TODAY = dt.date(2030, 3, 1)


def test_what_is_found_so_far_is_told_while_the_rest_is_read(
    session: Session, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(finder_module, "_EARLY_S", 0.0)
    cards = [
        make_card(f"00000000-0000-4000-8000-{n:012d}", f"bridge-{n}", f"Bridge {n}")
        for n in range(1, 21)
    ]
    assert session.document.edit(
        "Add cards", lambda library: evolve(library, cards={card.id: card for card in cards})
    )
    finder, early = finder_of(session), list[Found]()
    finder.found_early.connect(lambda found, _library: early.append(found))
    with qtbot.waitSignal(finder.found, timeout=5000) as blocker:
        finder.ask(Query(TODAY, "bridge"))
    sizes = [len(found.ids) for found in early]
    assert sizes == sorted(sizes)
    assert sizes[0] < 20
    assert len(blocker.args[0].ids) == 20


def test_nothing_is_told_early_where_no_words_are_asked_for(
    session: Session, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(finder_module, "_EARLY_S", 0.0)
    finder, early = finder_of(session), list[Found]()
    finder.found_early.connect(lambda found, _library: early.append(found))
    with qtbot.waitSignal(finder.found, timeout=5000):
        finder.ask(Query(TODAY))
    assert early == []
