"""The document: edits, undo, saving and what the disk holds afterwards."""

import json
import random
from collections.abc import Callable
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.document import Document
from authoring.editor.library_edits import (
    with_card,
    with_clinic,
    without_card,
    without_protocol,
)
from authoring.editor.session import Session
from authoring.editor.storage import Storage
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.text import Text
from tests.editor.conftest import ANKLE, HEEL, SQUAT, make_card

NEW = "00000000-0000-4000-8000-0000000000cc"


@pytest.fixture
def storage(session: Session) -> Storage:
    return session.storage


def named(title: str) -> Callable[[Card], Card]:
    return lambda card: evolve(card, title=Text.plain(title))


def saved(storage: Storage, qtbot: QtBot) -> None:
    with qtbot.waitSignal(storage.saved, timeout=10_000):
        storage.save()


def test_an_edit_outside_the_limits_is_refused_in_a_sentence(
    document: Document, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(document.refused) as told:
        made = document.edit_card("Rename", HEEL, lambda card: evolve(card, slug="Heel Raise"))
    assert not made
    assert told.args == ["slug is 'Heel Raise', which does not fit ^[a-z0-9]+(-[a-z0-9]+)*$."]
    assert not document.is_dirty


def test_saving_writes_only_what_differs(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    squat = folder / "cards" / "squat.card.json"
    before = squat.stat()
    document.edit_card("Rename", HEEL, named("Calf raise"))
    saved(storage, qtbot)
    after = squat.stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)
    assert open_library(folder).library == document.library
    assert not document.is_dirty
    assert storage.state_words().startswith("Saved ")


def test_a_removed_card_and_protocol_leave_the_disk_together_and_come_back(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    def remove(library: Library) -> Library:
        return without_protocol(without_card(library, HEEL), ANKLE)

    document.edit("Remove", remove)
    saved(storage, qtbot)
    assert not (folder / "cards" / "heel-raise.card.json").exists()
    assert not (folder / "protocols" / "ankle.protocol.json").exists()
    document.undo()
    saved(storage, qtbot)
    assert open_library(folder).library == document.library


def test_a_new_card_never_takes_the_file_of_another(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    card = make_card(NEW, "squat", "Another squat")
    document.edit("Add card", lambda library: with_card(library, card))
    saved(storage, qtbot)
    again = open_library(folder)
    assert again.paths[NEW] == folder / "cards" / "squat-2.card.json"
    assert again.library.cards[SQUAT].title == Text.plain("Squat")
    document.edit_card("Rename", NEW, named("Third squat"))
    saved(storage, qtbot)
    assert open_library(folder).library == document.library


def test_work_done_while_saving_stays_unsaved(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    document.edit_card("Rename", HEEL, named("First"))
    with qtbot.waitSignal(storage.saved, timeout=10_000):
        storage.save()
        document.edit_card("Rename", HEEL, named("Second"))
    assert open_library(folder).library.cards[HEEL].title == Text.plain("First")
    assert document.is_dirty
    saved(storage, qtbot)
    assert open_library(folder).library.cards[HEEL].title == Text.plain("Second")


def test_a_refused_save_is_refused_again_and_theirs_is_never_written_over(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    path = folder / "cards" / "heel-raise.card.json"
    theirs = json.loads(path.read_text(encoding="utf-8"))
    theirs["title"] = "Their title"
    path.write_text(json.dumps(theirs), encoding="utf-8")
    document.edit_card("Rename", HEEL, named("My title"))
    for _ in range(3):
        with qtbot.waitSignal(storage.save_failed, timeout=10_000) as failed:
            storage.save()
        assert "was changed outside this window" in str(failed.args[0])
        storage.jobs.finish()
    assert json.loads(path.read_text(encoding="utf-8"))["title"] == "Their title"
    assert document.library.cards[HEEL].title == Text.plain("My title")


def test_a_folder_that_can_t_be_written_keeps_the_work(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    document.edit("Remove", lambda library: without_card(library, SQUAT))
    document.edit("Add card", lambda lib: with_card(lib, make_card(NEW, "hop", "Hop")))
    cards = folder / "cards"
    cards.rename(folder / "elsewhere")
    cards.write_text("a file where the folder was", encoding="utf-8")
    with qtbot.waitSignal(storage.save_failed, timeout=10_000):
        storage.save()
    assert document.is_dirty
    assert (folder / "elsewhere" / "squat.card.json").is_file()


def test_a_picture_is_saved_with_the_card_that_shows_it(
    document: Document, storage: Storage, folder: Path, qtbot: QtBot
) -> None:
    name = document.add_image(b"not really a picture", "png")
    document.edit_card("Rename", HEEL, named("With a picture"))
    assert name in document.library.images
    saved(storage, qtbot)
    assert (folder / "images" / name).read_bytes() == b"not really a picture"
    assert document.image_bytes(name) == b"not really a picture"


def random_edit(rng: random.Random) -> Callable[[Library], Library]:
    """One of several edits that a person makes, on whatever the library then holds."""
    word = rng.choice(["Heel", "Squat", "Hop", "Bridge"])
    card_id = rng.choice([HEEL, SQUAT, NEW])

    def rename(library: Library) -> Library:
        card = library.cards.get(card_id) or make_card(card_id, word.lower(), word)
        return with_card(library, evolve(card, title=Text.plain(word)))

    def drop_steps(library: Library) -> Library:
        card = library.cards.get(card_id)
        if card is None:
            return library
        variants = tuple(evolve(variant, steps=variant.steps[1:]) for variant in card.variants)
        return with_card(library, evolve(card, variants=variants))

    def clinic(library: Library) -> Library:
        if library.clinic is None:
            return library
        return with_clinic(library, evolve(library.clinic, phone=word))

    return rng.choice([rename, drop_steps, clinic, lambda library: without_card(library, card_id)])


@pytest.mark.parametrize("block", range(10))
def test_random_edits_undone_and_redone_end_in_equal_values(document: Document, block: int) -> None:
    """Fifty sequences in each of ten blocks."""
    for seed in range(block * 50, block * 50 + 50):
        rng = random.Random(seed)
        while document.can_undo:
            document.undo()
        first = document.library
        for number in range(12):
            rng.choice(
                [
                    lambda rng=rng, n=number: document.edit(f"Edit {n}", random_edit(rng)),
                    lambda rng=rng: document.edit("Type", random_edit(rng), merge_key="k"),
                    document.undo,
                    document.redo,
                    document.seal,
                ]
            )()
        here = document.library
        undone = 0
        while document.can_undo:
            document.undo()
            undone += 1
        assert document.library == first
        for _ in range(undone):
            document.redo()
        assert document.library == here


def test_an_edit_of_what_was_removed_meanwhile_is_refused(document: Document, qtbot: QtBot) -> None:
    document.edit("Remove", lambda library: without_card(library, HEEL))
    with qtbot.waitSignal(document.refused) as told:
        assert not document.edit_card("Rename", HEEL, named("Too late"))
    assert told.args == ["This card is not in the library any more."]
    with qtbot.waitSignal(document.refused) as told:
        assert not document.edit_protocol("Rename", HEEL, lambda protocol: protocol)
    assert told.args == ["This protocol is not in the library any more."]
