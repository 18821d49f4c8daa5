"""Edits refuse and tell in the language of the interface."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from authoring.editor import i18n
from authoring.editor.catalogue import room_messages, text_of
from authoring.editor.edit_words import refusal, told
from authoring.editor.vocabulary_words import english_of_member
from authoring.model import edits
from authoring.model.base import ModelError
from authoring.model.edits.outcome import note, refuse
from authoring.model.vocabulary import (
    CareKind,
    Counting,
    LimbUse,
    Quantity,
    SideComparison,
    Sides,
    Unit,
)


@pytest.fixture
def french(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    catalogue = Catalog(locale="fr")
    catalogue.add("This protocol has no stage “{id}”.", "Ce protocole n’a pas d’étape « {id} ».")
    catalogue.add("The exercises are numbered anew.", "Les exercices sont renumérotés.")
    (tmp_path / "fr.po").write_text(text_of(catalogue), encoding="utf-8")
    monkeypatch.setattr(i18n, "_FOLDER", tmp_path)
    i18n.use("fr")
    yield
    i18n.use("en")


@pytest.mark.usefixtures("french")
def test_an_edit_refuses_in_the_language_in_use() -> None:
    error = refuse("This protocol has no stage “{id}”.", id="late")
    assert refusal(error) == "Ce protocole n’a pas d’étape « late »."
    assert error.sentence == "This protocol has no stage “late”."


@pytest.mark.usefixtures("french")
def test_an_edit_tells_more_in_the_language_in_use() -> None:
    notes = [note("The exercises are numbered anew.", about="p")]
    assert told(notes) == ("Les exercices sont renumérotés.",)


def test_words_without_a_template_are_said_as_they_are() -> None:
    assert refusal(ModelError("sets", "The sets are too many.")) == "The sets are too many."


def sentences_of_edits() -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(Path(edits.__path__[0]).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            name = getattr(getattr(node, "func", None), "id", "")
            if isinstance(node, ast.Call) and name in {"note", "refuse"}:
                yield f"{path.name}:{node.lineno}", node


@pytest.mark.parametrize(
    "call", [pytest.param(call, id=place) for place, call in sentences_of_edits()]
)
def test_every_sentence_of_an_edit_stands_where_it_can_be_found(call: ast.Call) -> None:
    known = room_messages()
    options = [call.args[0]]
    if isinstance(call.args[0], ast.IfExp):
        options = [call.args[0].body, call.args[0].orelse]
    for option in options:
        assert isinstance(option, ast.Constant)
        assert option.value in known


@pytest.mark.parametrize(
    ("member", "words"),
    [
        # All of these are "other" in the files, or "affected", or "steps".
        (Quantity.OTHER, "Another test"),
        (Sides.OTHER, "The other side"),
        (SideComparison.OTHER, "The other side"),
        (LimbUse.OTHER, "The other side"),
        (LimbUse.AFFECTED, "The affected side"),
        (CareKind.OTHER, "Other"),
        (Unit.STEPS, "Steps taken"),
        (Counting.STEPS, "Steps taken"),
    ],
)
def test_members_of_two_lists_with_one_name_in_files_have_words_of_their_own(
    member: Unit, words: str
) -> None:
    assert english_of_member(member) == words
