"""Every check on a library broken in one place, and none on a sound one."""

from collections import Counter
from pathlib import Path

import pytest

from authoring.checks.docs import PAGE, page
from authoring.checks.registry import BY_SUBJECT, CHECKS
from authoring.checks.result import CheckResult, Strength, Subject
from authoring.model.library import Library
from tests.checks.broken import BROKEN
from tests.checks.build import CARD_ID, LIBRARY, OTHER_ID, PROTOCOL_ID, get, results

IDS = [f"{number}-{code}" for number, (code, _, _) in enumerate(BROKEN)]
BY_CODE = {each.code: each for each in CHECKS}


def test_a_sound_library_has_no_result() -> None:
    assert results(LIBRARY) == ()


@pytest.mark.parametrize(("code", "library", "path"), BROKEN, ids=IDS)
def test_what_is_broken_is_reported_at_its_place(code: str, library: Library, path: str) -> None:
    found = [result for result in results(library) if result.code == code]
    assert path in [result.path for result in found]
    assert all(result.strength is BY_CODE[code].strength for result in found)


def test_every_check_has_a_library_that_it_fails_on() -> None:
    assert {code for code, _, _ in BROKEN} == set(BY_CODE)


def subject_value(library: Library, result: CheckResult) -> object:
    match result.subject:
        case Subject.CARD:
            return library.cards[result.subject_id]
        case Subject.PROTOCOL:
            return library.protocols[result.subject_id]
        case Subject.CLINIC:
            return library.clinic
        case _:
            return library.manifest


@pytest.mark.parametrize(("code", "library", "path"), BROKEN, ids=IDS)
def test_every_result_names_a_place_that_there_is(code: str, library: Library, path: str) -> None:
    for result in results(library):
        get(subject_value(library, result), result.path)


@pytest.mark.parametrize(("code", "library", "path"), BROKEN, ids=IDS)
def test_results_are_whole_sentences(code: str, library: Library, path: str) -> None:
    for result in results(library):
        for words in (result.sentence, result.mend):
            assert words.endswith((".", "?"))
            assert words[0].isupper() or words[0].isdigit() or words[0] == "“"
            assert "None" not in words
            assert "\n" not in words


def test_codes_are_unique_and_well_formed() -> None:
    assert max(Counter(each.code for each in CHECKS).values()) == 1
    assert all(each.code == each.code.lower().replace("_", "-") for each in CHECKS)


def test_every_check_is_explained() -> None:
    for each in CHECKS:
        assert each.says.endswith(".")
        assert len(each.why) > 10
        assert each.subjects


def test_the_strongest_results_of_a_file_come_first() -> None:
    order = list(Strength)
    for _, library, _ in BROKEN:
        for subject_id in (CARD_ID, PROTOCOL_ID, OTHER_ID, ""):
            found = [
                order.index(r.strength) for r in results(library) if r.subject_id == subject_id
            ]
            if subject_id != PROTOCOL_ID or len(library.cards) == 1:
                assert found == sorted(found)


def test_the_page_of_checks_is_up_to_date() -> None:
    assert Path(PAGE).read_text(encoding="utf-8") == page()


def test_the_page_names_every_code_once() -> None:
    text = page()
    for subject in (Subject.CARD, Subject.PROTOCOL, Subject.CLINIC, Subject.LIBRARY):
        for each in BY_SUBJECT[subject]:
            assert text.count(f"### `{each.code}` ({each.strength}") == 1
