"""Every phrase the program asks for is in the catalogue, every phrase in it is asked for.

The keys are read from the source text: whole ones as they stand, those made of a word of a
closed list through the table below, which must name every such key and nothing else.
"""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterable, Iterator
from itertools import product
from pathlib import Path
from string import Formatter

import pytest
from babel import Locale

from authoring import resources
from authoring.dosage.phrases import PhraseMissingError, Phrases, places_of
from authoring.handout.catalogue import languages, load_phrases
from authoring.handout.choices import ExtraKind
from authoring.handout.errors import HandoutError
from authoring.model.vocabulary import (
    BlockKind,
    Carried,
    Comparator,
    Counting,
    DecidedBy,
    Extent,
    Joint,
    LimbUse,
    Motion,
    PaceWord,
    PainAction,
    PauseAction,
    Period,
    Phase,
    Quantity,
    RestUntil,
    SessionLabel,
    SideComparison,
    Sides,
    Since,
    Speed,
    Unit,
    Until,
    Urgency,
    WeightBearing,
    WeightUnit,
    WindowKind,
)

ROOT = Path(__file__).resolve().parents[2]
SOURCES = [
    path for room in ("dosage", "handout") for path in (ROOT / "authoring" / room).glob("*.py")
]
ENTRIES = load_phrases("en").entries
KEY = re.compile(r"[a-z_]+(\.[A-Za-z0-9_/.]+)+")

LIMBS = ("arm", "leg", "body")
AWAY = {"left": "right", "right": "left"}
ENDS = [until for until in Until if until is not Until.COUNT]

EXPANDED: dict[str, Iterable[str]] = {
    "amount.{}": (Unit.DAYS, Unit.WEEKS, Unit.SESSIONS),
    "block.{}": BlockKind,
    "cap.{}": Period,
    "count.{}": Counting,
    "criterion.{}": (*Comparator, *SideComparison),
    "dose.last_set.{}": ENDS,
    "dose.holds_until.{}": ENDS,
    "dose.open.{}": DecidedBy,
    "dose.sets_until.{}": ENDS,
    "exercise.{}": Phase,
    "extra.{}.heading": ExtraKind,
    "extra.{}.note": ExtraKind,
    "joint.{}": Joint,
    "limb.{}.{}": [f"{use}.{limb}" for use, limb in product(LimbUse, LIMBS)],
    "limbs.up_down.{}": LIMBS,
    "limit.weight.{}": WeightBearing,
    "list.{}": ("and", "or"),
    "load.add.{}": Carried,
    "load.share.{}": (Quantity.MAX_EFFORT, Quantity.PAIN_FREE_FORCE),
    "load.weight.{}": Carried,
    "measure.{}": Quantity,
    "measured.{}": Unit,
    "motion.{}": Motion,
    "pace.{}": PaceWord,
    "pain.morning.{}": PainAction,
    "pain.tone.{}": ("0", "1", "2"),
    "pain.{}": PainAction,
    "pause.{}": PauseAction,
    "range.{}": Extent,
    "rest.until.{}": RestUntil,
    "rest.{}": ("between", "between_rounds", "after_set", "at_end"),
    "session.{}": SessionLabel,
    "side.{}.{}": [
        *(f"{each}.{limb}" for each, limb in product(Sides, LIMBS) if each != "both_together"),
        *(f"{side}.{limb}" for side, limb in product(AWAY, LIMBS)),
    ],
    "side.{}_then_{}.{}": [f"{a}_then_{b}.{limb}" for (a, b), limb in product(AWAY.items(), LIMBS)],
    "since.{}": Since,
    "stop.{}": Urgency,
    "support.{}": ("partner", "clinician", "walking_aid", "brace", "tape", "float"),
    "tempo.{}": (*Speed, "lifting_s", "pause_high_s", "lowering_s", "pause_low_s"),
    "unit.{}": WeightUnit,
    "window.{}": WindowKind,
}


def strings(tree: ast.AST) -> Iterator[str]:
    """Literals of a module; what an f-string inserts is ``{}``."""
    inside = {
        id(v) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for v in node.values
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            pieces = (v.value if isinstance(v, ast.Constant) else "{}" for v in node.values)
            yield "".join(str(piece) for piece in pieces)
        elif (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in inside
        ):
            yield node.value


LITERALS = {text for path in SOURCES for text in strings(ast.parse(path.read_text("utf-8")))}
PREFIXES = {key.partition(".")[0] for key in ENTRIES}
FILES = (".typ", ".jinja", ".css", ".js", ".json", ".xml", ".rels")
WHOLE = {
    text
    for text in LITERALS
    if KEY.fullmatch(text) and text.partition(".")[0] in PREFIXES and not text.endswith(FILES)
}
MADE = {
    text
    for text in LITERALS
    if "{}" in text
    and re.fullmatch(r"[a-z_]+\.[a-z_.{}]+", text)
    and text.partition(".")[0] in PREFIXES
}
EXPECTED = {
    pattern.partition("{")[0] + value + (pattern.rpartition("}")[2] if "}." in pattern else "")
    for pattern, values in EXPANDED.items()
    for value in values
}


def test_the_table_names_every_key_that_is_made_of_a_word_of_a_list() -> None:
    assert set(EXPANDED) == MADE


def test_every_phrase_asked_for_is_there() -> None:
    # "range" and "needs" stand alone; other keys have a dot.
    assert sorted((WHOLE | EXPECTED) - set(ENTRIES)) == []


def test_every_phrase_there_is_asked_for() -> None:
    assert sorted(set(ENTRIES) - WHOLE - EXPECTED - LITERALS) == []


def forms(entry: str | dict[str, str]) -> list[str]:
    return [entry] if isinstance(entry, str) else list(entry.values())


@pytest.mark.parametrize("language", languages())
def test_places_are_named_and_well_formed(language: str) -> None:
    english = ENTRIES
    for key, entry in load_phrases(language).entries.items():
        allowed = {place for form in forms(english[key]) for place in places_of(form)}
        for form in forms(entry):
            parsed = list(Formatter().parse(form))
            assert all(name is None or name.isidentifier() for _, name, _, _ in parsed), key
            assert all(not spec and not turn for _, _, spec, turn in parsed), key
            assert places_of(form) <= allowed, key
            assert form.strip() == form
            assert form


@pytest.mark.parametrize("language", languages())
def test_a_catalogue_has_the_phrases_and_plural_forms_of_its_language(language: str) -> None:
    """Plural categories of CLDR (Unicode TR 35 part 3)."""
    entries = load_phrases(language).entries
    assert set(entries) == set(ENTRIES)
    known = {*Locale.parse(language, sep="-").plural_form.rules, "other"}
    for key, entry in entries.items():
        assert isinstance(entry, str) == isinstance(ENTRIES[key], str), key
        if not isinstance(entry, str):
            assert set(entry) <= known, key
            assert "other" in entry, key


def test_the_file_is_kept_in_order() -> None:
    for path in resources.phrases().glob("*.json"):
        data = json.loads(path.read_text("utf-8"))
        assert data["language"] == path.stem
        assert list(data["phrases"]) == sorted(data["phrases"])


@pytest.mark.parametrize("word", ["×", "reps", "bilateral", "as tolerated", "e.g.", "i.e."])
def test_no_phrase_uses_a_word_the_page_forbids(word: str) -> None:
    texts = [form for entry in ENTRIES.values() for form in forms(entry)]
    assert not [text for text in texts if word in text]


@pytest.mark.parametrize(
    ("language", "base"),
    [("en-GB", "en"), ("en-AQ", "en"), ("en-Latn-NZ", "en"), ("en-419", "en")],
)
def test_a_region_has_the_phrases_of_its_language(language: str, base: str) -> None:
    phrases = load_phrases(language)
    assert phrases.language == language
    assert phrases.entries == load_phrases(base).entries
    assert phrases.locale.language == base
    assert phrases.number(1234.5) == "1234.5"


@pytest.mark.parametrize(
    "language", ["de", "xx", "", "en_GB", "EN", "en-", "../phrases/en", "en-@@", "english"]
)
def test_a_language_without_phrases_is_named_with_those_there_are(language: str) -> None:
    with pytest.raises(HandoutError, match="choose one of: ") as told:
        load_phrases(language)
    assert repr(language) in str(told.value)


def test_a_phrase_that_is_missing_is_named() -> None:
    phrases = Phrases("en", {"a.b": "x", "a.c": {"other": "y"}})
    for ask in (
        lambda: phrases.say("a.d"),
        lambda: phrases.say("a.c"),
        lambda: phrases.count("a.b", 1),
    ):
        with pytest.raises(PhraseMissingError, match="add it to the catalogue"):
            ask()
