"""A library folder opens whole, set-aside files named, and is saved without losing anything.

"Old or new, never neither": Pillai TS et al., OSDI 2014. The layers below have the long runs;
these tests hold the folder as a whole to the same promise.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from authoring.files.documents import document_bytes
from authoring.files.errors import FileProblem, Outcome, OutsideChange, Unreadable, Unwritable
from authoring.files.library import (
    NotALibrary,
    OpenLibrary,
    create_library,
    file_of,
    is_library,
    open_library,
    read_history,
    read_images,
    save_document,
    save_together,
)
from authoring.model.base import ModelError, evolve
from authoring.model.card import Card
from authoring.model.library import ApprovedVersion
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from tests.checks.build import APPROVAL, CARD, CARD_ID, CLINIC, LIBRARY, PROTOCOL, PROTOCOL_ID
from tests.handout.clinic_sheets import EXAMPLE

OTHER_ID = "00000000-0000-4000-8000-0000000000bb"
PICTURE = f"{'a' * 64}.png"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small library on the disk."""
    made = tmp_path / "library"
    documents = (LIBRARY.manifest, CLINIC, CARD, PROTOCOL)
    create_library(made, documents, {PICTURE: b"a picture"})
    return made


def titled(words: str) -> tuple[Card, Protocol]:
    """The card and the protocol, both with this title."""
    text = Text.plain(words)
    return evolve(CARD, title=text), evolve(PROTOCOL, title=text)


def titles(opened: OpenLibrary) -> set[str]:
    library = opened.library
    return {
        each.title.values[""] for each in (*library.cards.values(), *library.protocols.values())
    }


# ---- open ----------------------------------------------------------------------------------


def test_what_was_created_opens_equal(folder: Path) -> None:
    opened = open_library(folder)
    assert opened.library == evolve_images(folder)
    assert opened.problems == ()
    assert opened.unknown == {}
    assert is_library(folder)
    assert opened.paths[CARD_ID] == folder / "cards" / "heel-raise.card.json"
    assert set(opened.baselines) == {
        folder / name
        for name in (
            "library.json",
            "clinic.json",
            "cards/heel-raise.card.json",
            "protocols/ankle-sprain.protocol.json",
        )
    }


def evolve_images(folder: Path) -> object:
    return evolve(LIBRARY, images=frozenset(path.name for path in (folder / "images").iterdir()))


def test_every_file_of_the_example_is_in_the_form_that_saving_gives() -> None:
    """So that the first save of one field differs in one line."""
    opened = open_library(EXAMPLE)
    assert opened.problems == ()
    library = opened.library
    for noun in (*library.cards.values(), *library.protocols.values()):
        assert opened.paths[noun.id].read_bytes() == document_bytes(noun)
    assert len(read_history(EXAMPLE)) == len(library.protocols)


@pytest.mark.parametrize(
    "name", ["cards/heel-raise.card.json", "protocols/ankle-sprain.protocol.json"]
)
def test_a_broken_file_is_set_aside_and_named(folder: Path, name: str) -> None:
    (folder / name).write_text('{"format"', encoding="utf-8")
    opened = open_library(folder)
    assert [problem.path for problem in opened.problems] == [folder / name]
    assert len(opened.library.cards) + len(opened.library.protocols) == 1
    assert folder / name not in opened.baselines


def test_a_file_of_another_kind_in_a_room_is_set_aside(folder: Path) -> None:
    wrong = folder / "cards" / "clinic.card.json"
    shutil.copy(folder / "clinic.json", wrong)
    (problem,) = open_library(folder).problems
    assert problem.path == wrong
    assert "a rungbook/card file is wanted" in str(problem)


def test_a_broken_clinic_leaves_a_library_without_one(folder: Path) -> None:
    (folder / "clinic.json").write_text("[]", encoding="utf-8")
    opened = open_library(folder)
    assert opened.library.clinic is None
    assert [problem.path.name for problem in opened.problems] == ["clinic.json"]
    assert len(opened.library.cards) == 1


def test_a_clinic_that_is_a_link_to_nowhere_is_named_not_passed_over(folder: Path) -> None:
    (folder / "clinic.json").unlink()
    (folder / "clinic.json").symlink_to("nowhere")
    assert [problem.path.name for problem in open_library(folder).problems] == ["clinic.json"]


def test_of_two_files_with_one_id_the_first_by_name_is_used(folder: Path) -> None:
    twin = folder / "cards" / "zz-twin.card.json"
    twin.write_bytes(document_bytes(evolve(CARD, slug="zz-twin", title=Text.plain("Twin"))))
    opened = open_library(folder)
    assert opened.library.cards[CARD_ID] == CARD
    (problem,) = opened.problems
    assert problem.path == twin
    assert "same id as heel-raise.card.json" in str(problem)


def test_a_card_and_a_protocol_with_one_id_clash_too(folder: Path) -> None:
    clash = folder / "protocols" / "clash.protocol.json"
    clash.write_bytes(document_bytes(evolve(PROTOCOL, id=CARD_ID, slug="clash")))
    assert [problem.path for problem in open_library(folder).problems] == [clash]


def test_unknown_fields_are_listed_by_file_and_outlive_a_save(folder: Path) -> None:
    path = folder / "cards" / "heel-raise.card.json"
    data = json.loads(path.read_text(encoding="utf-8"))
    data["variants"][0]["later"] = {"a": [1, None]}
    path.write_text(json.dumps(data), encoding="utf-8")
    opened = open_library(folder)
    assert opened.unknown == {path: ("variants[0].later",)}
    save_document(opened, evolve(opened.library.cards[CARD_ID], owner="Somebody"))
    after = json.loads(path.read_text(encoding="utf-8"))
    assert after["owner"] == "Somebody"
    assert after["variants"][0]["later"] == {"a": [1, None]}


def test_hidden_files_and_strangers_are_passed_over(folder: Path) -> None:
    for name in ("cards/.x.card.json", "cards/notes.txt", "cards/old.card.json.bak", "Thumbs.db"):
        (folder / name).write_text("{", encoding="utf-8")
    assert open_library(folder).problems == ()


@pytest.mark.parametrize(
    ("kind", "error", "told"),
    [
        ("nothing", Unreadable, "there is no such folder"),
        ("a file", Unreadable, "there is no such folder"),
        ("empty", NotALibrary, "rungbook new"),
        ("broken", FileProblem, "library.json"),
    ],
)
def test_what_is_no_library_is_refused(
    tmp_path: Path, kind: str, error: type[FileProblem], told: str
) -> None:
    place = tmp_path / "place"
    if kind == "a file":
        place.write_text("", encoding="utf-8")
    elif kind != "nothing":
        place.mkdir()
    if kind == "broken":
        (place / "library.json").write_text("{", encoding="utf-8")
    with pytest.raises(error, match=told):
        open_library(place)


# ---- save ----------------------------------------------------------------------------------


def test_saving_one_file_gives_the_baseline_of_the_next_save(folder: Path) -> None:
    opened = open_library(folder)
    card, _ = titled("new")
    after = save_document(opened, card)
    assert titles(open_library(folder)) == {"new", "Ankle sprain"}
    next_time = evolve(opened, baselines={**opened.baselines, opened.paths[CARD_ID]: after})
    save_document(next_time, titled("newer")[0])
    assert titles(open_library(folder)) == {"newer", "Ankle sprain"}


def test_a_new_card_gets_the_file_of_its_slug(folder: Path) -> None:
    save_document(open_library(folder), evolve(CARD, id=OTHER_ID, slug="squat"))
    assert open_library(folder).paths[OTHER_ID] == folder / "cards" / "squat.card.json"


def test_a_card_keeps_its_file_when_its_slug_changes(folder: Path) -> None:
    opened = open_library(folder)
    save_document(opened, evolve(CARD, slug="calf-raise"))
    again = open_library(folder)
    assert again.paths[CARD_ID] == opened.paths[CARD_ID]
    assert again.library.cards[CARD_ID].slug == "calf-raise"


def test_an_approved_version_is_written_once_and_never_again(folder: Path) -> None:
    version = ApprovedVersion(protocol=PROTOCOL, cards=(CARD,), approval=APPROVAL)
    save_document(open_library(folder), version)
    assert read_history(folder) == (version,)
    with pytest.raises(OutsideChange):
        save_document(open_library(folder), evolve(version, cards=()))
    assert read_history(folder) == (version,)


@pytest.mark.parametrize("gone", [False, True])
def test_an_outside_change_is_refused_and_refused_again(folder: Path, gone: bool) -> None:
    """A refusal leaves the remembered baseline, so that the next autosave refuses too."""
    opened = open_library(folder)
    path = opened.paths[CARD_ID]
    if gone:
        path.unlink()
    else:
        path.write_bytes(document_bytes(evolve(CARD, owner="Another")))
    before = {p: p.read_bytes() for p in folder.rglob("*.json")}
    for _ in range(2):
        with pytest.raises(OutsideChange) as told:
            save_document(opened, titled("mine")[0])
        assert told.value.outcome is (Outcome.MISSING if gone else Outcome.CHANGED)
        with pytest.raises(OutsideChange):
            save_together(opened, titled("mine"))
    assert {p: p.read_bytes() for p in folder.rglob("*.json")} == before


def test_of_two_windows_the_later_save_is_refused(folder: Path) -> None:
    first, second = open_library(folder), open_library(folder)
    save_together(first, titled("first"))
    with pytest.raises(OutsideChange) as told:
        save_together(second, titled("second"))
    assert len(told.value.outcomes) == 2
    assert titles(open_library(folder)) == {"first"}


def test_files_saved_together_give_all_new_baselines(folder: Path) -> None:
    opened = open_library(folder)
    made = save_together(opened, titled("both"))
    assert set(made) == {opened.paths[CARD_ID], opened.paths[PROTOCOL_ID]}
    assert open_library(folder).baselines == {**opened.baselines, **made}


def test_a_plan_has_no_place_in_a_library(folder: Path) -> None:
    from tests.handout.test_compose_plan import ONE

    with pytest.raises(ModelError, match="no place in a library"):
        file_of(ONE)
    with pytest.raises(ModelError):
        save_document(open_library(folder), ONE)


def test_pictures_that_are_not_there_are_left_out(folder: Path) -> None:
    assert read_images(folder, [PICTURE, f"{'b' * 64}.png"]) == {PICTURE: b"a picture"}


def test_a_library_is_never_started_where_something_is(folder: Path) -> None:
    before = sorted(folder.rglob("*"))
    with pytest.raises(Unwritable, match="something here already"):
        create_library(folder, (LIBRARY.manifest,), {})
    assert sorted(folder.rglob("*")) == before


# ---- rights --------------------------------------------------------------------------------


@pytest.fixture
def stranger(folder: Path) -> Iterator[Path]:
    """The library seen by an account that may read it and write nothing in it."""
    outside = Path(tempfile.mkdtemp())
    seen = Path(shutil.copytree(folder, outside / "library"))
    for path in (outside, seen, *seen.rglob("*")):
        path.chmod(0o555 if path.is_dir() else 0o444)
    root = os.geteuid() == 0
    if root:  # root may write anywhere, so become nobody for a while
        os.seteuid(65534)
    yield seen
    if root:
        os.seteuid(0)
    for path in (outside, seen, *seen.rglob("*")):
        path.chmod(0o755)
    shutil.rmtree(outside)


def test_a_library_that_can_only_be_read_opens(stranger: Path) -> None:
    opened = open_library(stranger)
    assert opened.problems == ()
    assert titles(opened) == {"Heel raise", "Ankle sprain"}


def test_saving_there_is_refused_in_a_sentence_and_changes_nothing(stranger: Path) -> None:
    opened = open_library(stranger)
    before = {path: path.read_bytes() for path in stranger.rglob("*.json")}
    for save in (
        lambda: save_document(opened, titled("mine")[0]),
        lambda: save_together(opened, titled("mine")),
        lambda: create_library(stranger / "inner", (LIBRARY.manifest,), {}),
    ):
        with pytest.raises(FileProblem, match=r"read-only|no right"):
            save()
    assert {path: path.read_bytes() for path in stranger.rglob("*.json")} == before


@pytest.mark.parametrize("closed", ["cards", "images"])
def test_a_folder_that_can_not_be_listed_is_named_and_the_rest_opens(
    folder: Path, stranger: Path, closed: str
) -> None:
    if os.geteuid() != os.getuid():
        os.seteuid(os.getuid())
    (stranger / closed).chmod(0)
    if os.getuid() == 0:
        os.seteuid(65534)
    opened = open_library(stranger)
    assert [problem.path for problem in opened.problems] == [stranger / closed]
    assert "no right" in str(opened.problems[0])
    assert len(opened.library.protocols) == 1
    if os.getuid() == 0:
        os.seteuid(0)


# ---- killed --------------------------------------------------------------------------------


def _save_until_killed(folder: Path) -> None:
    while True:
        for words in ("even", "odd"):
            save_together(open_library(folder), titled(words))


def test_a_save_of_several_files_that_is_killed_leaves_all_old_or_all_new(folder: Path) -> None:
    """SIGKILL at 8 moments drawn from a fixed seed; the layer below has the long runs."""
    save_together(open_library(folder), titled("even"))
    moments = random.Random(20260302)
    for _ in range(8):
        child = os.fork()
        if child == 0:
            try:
                _save_until_killed(folder)
            finally:
                os._exit(1)
        time.sleep(moments.uniform(0.005, 0.06))
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status)
        opened = open_library(folder)
        assert opened.problems == ()
        assert titles(opened) in ({"even"}, {"odd"})
    save_together(open_library(folder), titled("alive"))
    assert titles(open_library(folder)) == {"alive"}
