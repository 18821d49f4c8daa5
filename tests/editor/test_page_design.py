"""Layout, reader and extra sheets chosen in the page room, as a person would."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from authoring.dosage.phrases import Phrases
from authoring.editor.page.choices import Choices
from authoring.editor.page.composing import compose_page, page_bytes
from authoring.editor.page.design import Design
from authoring.editor.page.kept import Kept
from authoring.editor.page.wish import PageFault, first_of
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.handout.catalogue import load_phrases
from authoring.handout.choices import Audience, ExtraKind, Layout
from authoring.handout.document import Exercise, Stairs, StopBox
from authoring.handout.readers import phrases_for
from tests.editor import page_jobs as pages


@pytest.fixture
def choices(session: Session, qtbot: QtBot) -> Choices:
    made = Choices(session)
    qtbot.addWidget(made)
    made.show()
    return made


def chosen_next(design: Design, qtbot: QtBot) -> None:
    """Choose the next layout by keyboard."""
    combo = design.layout_choice.combo
    combo.setFocus()
    qtbot.keyClick(combo, Qt.Key.Key_Down)


def test_the_page_maker_chooses_as_the_command_does_until_asked(choices: Choices) -> None:
    wish = choices.wish()
    assert (wish.layout, wish.audience, wish.extras) == (None, Audience.ADULT, frozenset())
    assert choices.design.layout_choice.combo.currentText() == "Choose for me"


@pytest.mark.parametrize(
    ("presses", "layout"), [(1, Layout.FULL), (2, Layout.COMPACT), (3, Layout.OVERVIEW)]
)
def test_a_layout_is_chosen_by_keyboard(
    choices: Choices, qtbot: QtBot, presses: int, layout: Layout
) -> None:
    for _ in range(presses):
        with qtbot.waitSignal(choices.changed):
            chosen_next(choices.design, qtbot)
    assert choices.wish().layout is layout


def test_sheets_and_reader_are_wished_for_and_kept_for_the_library(
    choices: Choices, session: Session, qtbot: QtBot
) -> None:
    for kind in (ExtraKind.DIARY, ExtraKind.WALLET):
        qtbot.keyClick(choices.design.sheets[kind], Qt.Key.Key_Space)
    qtbot.keyClick(choices.design.audience_choice.combo, Qt.Key.Key_Down)
    anew = Choices(session)
    qtbot.addWidget(anew)
    for each in (choices, anew):
        wish = each.wish()
        assert wish.extras == {ExtraKind.WALLET, ExtraKind.DIARY}
        assert wish.audience is Audience.CHILD


def test_another_library_keeps_its_own_choices(settings: Settings, tmp_path: Path) -> None:
    Kept(settings, tmp_path / "one").keep("layout", "compact")
    assert Kept(settings, tmp_path / "one").of("layout") == "compact"
    assert Kept(settings, tmp_path / "two").of("layout") == ""


def test_every_control_has_a_name_for_screen_readers(choices: Choices) -> None:
    design = choices.design
    assert design.layout_choice.combo.accessibleName() == "Layout"
    assert design.audience_choice.combo.accessibleName() == "For whom"
    names = [tick.accessibleName() for tick in design.sheets.values()]
    assert names == [
        "Extra sheets: Wallet card",
        "Extra sheets: Blank diary",
        "Extra sheets: Summary for a colleague",
    ]


def test_a_language_without_words_for_a_child_speaks_to_the_adult(
    choices: Choices, qtbot: QtBot
) -> None:
    design = choices.design
    qtbot.keyClick(design.audience_choice.combo, Qt.Key.Key_Down)
    assert design.audience is Audience.CHILD
    design.refresh("qaa")
    assert not design.audience_choice.isEnabled()
    assert design.audience is Audience.ADULT
    design.refresh("en-GB")
    assert design.audience is Audience.CHILD


def test_the_page_follows_the_layout_and_the_sheets() -> None:
    both = frozenset({ExtraKind.WALLET})
    full, _ = compose_page(pages.job(stages=(1,), layout=Layout.FULL))
    compact, _ = compose_page(pages.job(stages=(1,), layout=Layout.COMPACT, extras=both))
    assert full.layout is Layout.FULL
    assert any(isinstance(part, Stairs) for part in full.parts)
    assert compact.layout is Layout.COMPACT
    assert not any(isinstance(part, Stairs) for part in compact.parts)
    count = [sum(isinstance(part, StopBox) for part in each.parts) for each in (full, compact)]
    assert count == [1, 2]
    numbers = [
        [part.number for part in each.parts if isinstance(part, Exercise)]
        for each in (full, compact)
    ]
    assert numbers[0] == numbers[1]


def test_the_page_speaks_to_the_reader_chosen() -> None:
    def pain(phrases: Phrases) -> str:
        return phrases.pattern("pain.heading")

    wanted = pain(phrases_for(load_phrases("en-GB"), Audience.CARER))
    assert wanted != pain(load_phrases("en-GB"))
    page, _ = compose_page(pages.job(stages=(1,), audience=Audience.CARER, layout=Layout.FULL))
    assert wanted in repr(page.parts)


def test_an_overview_of_several_stages_is_refused_and_has_no_early_page() -> None:
    job = pages.job(layout=Layout.OVERVIEW)
    assert first_of(job) is None
    with pytest.raises(PageFault, match="An overview is one page for one stage"):
        page_bytes(job, ".html", lambda: None)
