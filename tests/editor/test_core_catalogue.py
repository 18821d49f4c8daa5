"""Words of the interface: every message is found, and catalogues are complete."""

import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from authoring.editor import i18n
from authoring.editor.catalogue import (
    LOCALES,
    all_messages,
    code_messages,
    read,
    text_of,
    updated,
)
from authoring.editor.i18n import tr, tr_n


def test_messages_of_code_and_model_are_found() -> None:
    found = all_messages()
    for message in (
        "Find a card, stage or command",
        "Protocols",
        ("{n} more field", "{n} more fields"),
        "Kind of work",
        "Holding",
        "Steps in order, one action each.",
    ):
        assert message in found


def places(message: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(message) if name is not None}


@pytest.mark.parametrize("message", sorted(code_messages(), key=str), ids=str)
def test_every_message_has_places_that_can_be_filled(message: object) -> None:
    for one in message if isinstance(message, tuple) else (message,):
        assert isinstance(one, str)
        assert all(name.isidentifier() for name in places(one)), one


def test_every_catalogue_holds_every_message_and_keeps_its_places() -> None:
    for path in sorted(LOCALES.glob("*.po")):
        catalogue = read(path, path.stem)
        assert text_of(updated(catalogue, path.stem)) == path.read_text(encoding="utf-8")
        for message in catalogue:
            sources = _several(message.id)
            for words in _several(message.string) if message.id else ():
                assert words, f"{message.id!r} is not translated"
                assert places(words) <= places(sources[-1]), message.id


def _several(words: object) -> tuple[str, ...]:
    return tuple(words) if isinstance(words, tuple | list) else (str(words),)


def test_updating_keeps_what_was_translated_and_drops_what_is_gone() -> None:
    old = Catalog(locale="fr")
    old.add("Protocols", "Protocoles")
    old.add("Gone for good", "Parti")
    new = updated(old, "fr")
    found = new.get("Protocols")
    assert found is not None
    assert found.string == "Protocoles"
    assert new.get("Gone for good") is None


@pytest.fixture
def french(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    catalogue = Catalog(locale="fr")
    catalogue.add("Undo “{name}”", "Annuler « {name} »")
    catalogue.add(("{n} entry", "{n} entries"), ("{n} exercice", "{n} exercices"))
    (tmp_path / "fr.po").write_text(text_of(catalogue), encoding="utf-8")
    monkeypatch.setattr(i18n, "_FOLDER", tmp_path)
    i18n.use("fr_CA")
    yield
    i18n.use("en")


@pytest.mark.usefixtures("french")
def test_messages_are_said_in_the_language_in_use() -> None:
    assert i18n.language() == "fr"
    assert tr("Undo “{name}”", name="Déplacer") == "Annuler « Déplacer »"
    assert tr("Not in the catalogue") == "Not in the catalogue"
    # French counts nought as one (CLDR plural rules).
    assert [tr_n("{n} entry", "{n} entries", n) for n in (0, 1, 2)] == [
        "0 exercice",
        "1 exercice",
        "2 exercices",
    ]


def test_a_language_without_a_catalogue_means_english() -> None:
    i18n.use("tlh")
    assert i18n.language() == "en"


def test_languages_are_named_in_themselves() -> None:
    assert i18n.own_name("fr") == "Français"


def test_a_dose_keeps_its_order_in_an_interface_written_from_right_to_left(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Isolates are those of the Unicode bidirectional algorithm (UAX 9, section 2.4)."""
    assert i18n.ltr("3 × 8–12") == "3 × 8–12"
    monkeypatch.setattr(i18n, "is_right_to_left", lambda: True)
    assert i18n.ltr("3 × 8–12") == "\N{LEFT-TO-RIGHT ISOLATE}3 × 8–12\N{POP DIRECTIONAL ISOLATE}"
    assert i18n.ltr("") == ""


@pytest.mark.parametrize(
    ("tag", "name"),
    [("en-GB", "English (United Kingdom)"), ("ar", "Arabic"), ("eno", ""), ("-", ""), ("", "")],
)
def test_a_language_is_named_in_words_where_it_is_known(tag: str, name: str) -> None:
    # Names by CLDR.
    assert i18n.language_name(tag) == name
