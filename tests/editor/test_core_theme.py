"""Tokens, text sizes, languages and direction reach the whole window."""

import pytest
from coloraide import Color
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from authoring.editor import theme as themes
from authoring.editor.appearance import Appearance
from authoring.editor.parts.labels import label
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.theme import SCALES, Theme, ThemeName, tokens

pytestmark = pytest.mark.usefixtures("bare")


# Which grounds a colour is used on; WCAG 2.2 asks 4.5 of text (1.4.3), 3 of what must be
# seen to use a control (1.4.11). The ratios are Coloraide's, not ours.
TEXT = ("ink", "soft", "accent", "stop", "care", "note", "good", "focus")
GROUNDS = ("ground", "sheet", "gate", "wash")


@pytest.mark.parametrize("name", ["light", "dark", "contrast"])
@pytest.mark.parametrize("token", TEXT)
def test_every_text_colour_can_be_read_on_every_ground(name: str, token: str) -> None:
    used = Theme.of(name)
    for ground in GROUNDS:
        ratio = Color(used.hex(token)).contrast(used.hex(ground), method="wcag21")
        assert ratio >= 4.5, (token, ground, ratio)


@pytest.mark.parametrize("name", ["light", "dark", "contrast"])
def test_outlines_and_the_main_button_can_be_told_from_what_is_behind(name: str) -> None:
    used = Theme.of(name)
    for ground in GROUNDS:
        assert Color(used.hex("edge")).contrast(used.hex(ground), method="wcag21") >= 3
    assert Color(used.hex("on-accent")).contrast(used.hex("fill"), method="wcag21") >= 4.5
    for ground in ("ground", "sheet"):
        assert Color(used.hex("fill")).contrast(used.hex(ground), method="wcag21") >= 3


# Marks stand on the window, on sheets and on their own wash; "fill" is a button's ground.
PAIRS = {
    **dict.fromkeys(("ink", "soft", "accent", "focus", "good", "edge"), GROUNDS),
    **{token: ("ground", "sheet", f"{token}-wash") for token in ("stop", "care", "note")},
    "fill": ("ground", "sheet"),
    "on-accent": ("fill",),
}


@pytest.mark.parametrize("name", ["light", "dark", "contrast"])
@pytest.mark.parametrize("token", PAIRS)
def test_the_tokens_keep_the_contrasts_they_promise(name: str, token: str) -> None:
    used = Theme.of(name)
    promised = tokens()["themes"][name][token]["least_contrast"]
    others = [used.hex(other) for other in PAIRS[token]]
    least = min(Color(used.hex(token)).contrast(other, method="wcag21") for other in others)
    assert least >= promised - 0.05


def test_a_theme_is_chosen_in_the_menu_and_reaches_the_window(
    window: MainWindow, settings: Settings
) -> None:
    settings.theme = ThemeName.DARK
    assert themes.theme().name == "dark"
    assert Theme.of("dark").hex("ground").lower() in QApplication.instance().styleSheet().lower()
    settings.theme = ThemeName.LIGHT


@pytest.mark.parametrize("scale", SCALES)
def test_larger_text_makes_everything_larger_and_fits_the_window(
    window: MainWindow, settings: Settings, scale: float, qtbot: QtBot
) -> None:
    settings.scale = scale
    qtbot.wait(50)
    assert window.header.height() == round(48 * scale)
    assert window.minimumSizeHint().width() <= 1366
    assert window.key_line.isVisible()


def test_the_place_is_kept_when_the_text_size_changes(
    window: MainWindow, settings: Settings, session: Session
) -> None:
    window.show_room("cards")
    settings.scale = 1.15
    assert window.header.button("cards").isChecked()
    assert window.room.session is session
    keys = [key.toString() for action in window.menus.commands for key in action.shortcuts()]
    assert len(keys) == len(set(keys))


def test_labels_stand_where_reading_begins(appearance: Appearance, qapp: QApplication) -> None:
    left: QLabel = label("Heel raise")
    qapp.setLayoutDirection(Qt.LayoutDirection.RightToLeft)
    right: QLabel = label("Heel raise")
    qapp.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
    assert left.alignment() & Qt.AlignmentFlag.AlignLeft
    assert right.alignment() & Qt.AlignmentFlag.AlignRight


@pytest.mark.parametrize(("keys", "factor"), [("+", 1.15), ("-", 1.0)])
def test_text_size_goes_up_and_down_by_keys(
    window: MainWindow, settings: Settings, keys: str, factor: float
) -> None:
    window.zoom(1 if keys == "+" else -1)
    assert settings.scale == factor


def test_settings_that_were_tampered_with_mean_the_usual(settings: Settings) -> None:
    settings._store.setValue("view/scale", "enormous")
    settings._store.setValue("view/theme", "sepia")
    assert settings.scale == 1.0
    assert settings.theme is ThemeName.SYSTEM
