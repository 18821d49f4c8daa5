"""The French catalogue: complete, well formed, and what a French reader sees."""

import re
import string
from collections.abc import Iterator

import pytest
from babel.messages.catalog import Message

from authoring.editor import i18n
from authoring.editor.catalogue import LOCALES, all_messages, read
from authoring.editor.i18n import tr, tr_n

CATALOGUE = read(LOCALES / "fr.po", "fr")
MESSAGES = [message for message in CATALOGUE if message.id]

SHARED = """
A4 Abduction Action Adduction Angle Angles Circuit Code Code. Codes Codes. Compression
Consensus Contacts Ctrl+E Ctrl+P DOI Date Distance Dose Doses Explosive Extension F6 Flexion
Force Image Inversion Licence Licence. Logo Logo. Machine Message Minutes Moment Moments Motivation
Newtons
Note Note. PDF Page Patient Performance Points Poses Position Positions Progression Pronation
Publications. Question Restriction Rotation Rungbook Source Sources Sprint Standard
Supination Surface Tab Table Tempo Total Total. Version Version. Watts Word Yards dose
position tempo
"""
"""Loanwords, names, keys and words of anatomy that French and English share."""

SAME = frozenset(SHARED.split()) | {
    "Plans",
    "Alt U",
    "Alt ↑ ↓",
    "Ctrl J",
    "Ctrl ↑ ↓",
    "Plan",
    "Rungbook {version}",
    "Version {version}",
    "abduction (− adduction)",
    "distance",
    "flexion (− extension)",
    "logo",
    "minutes",
    "progression {n}",
    "pronation (− supination)",
    "{n} min",
    "{ratio} – {verdict}",
    "{stage}, {protocol}",
    "{status}, version {version}",
    "{title}, {rung}, {dose}, {minutes} minutes",
}


@pytest.fixture
def french() -> Iterator[None]:
    i18n.use("fr")
    yield
    i18n.use("en")


def several(words: object) -> tuple[str, ...]:
    return tuple(words) if isinstance(words, tuple | list) else (str(words),)


def places(words: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(words) if name is not None}


PLACE = re.compile(r"{[^}]*}")
CODE = re.compile(r"'[^']+'")
"""What is typed as it stands, in English; French has it in guillemets."""


def prose(english: str, own: str) -> tuple[str, str]:
    """The two without their places and without what is typed as it stands."""
    typed = CODE.search(english) is not None
    french = re.sub("«[^»]*»", "x", own) if typed else own
    return PLACE.sub("", CODE.sub("x", english)), PLACE.sub("x", french)


def pairs() -> Iterator[tuple[Message, str, str]]:
    """Every message with each French form and the English form it stands for."""
    for message in MESSAGES:
        for english, own in zip(several(message.id), several(message.string), strict=True):
            yield message, english, own


def test_every_message_of_the_interface_is_in_the_catalogue() -> None:
    known = {m.id if isinstance(m.id, str) else tuple(m.id) for m in MESSAGES}
    # As in gettext, a message with a plural also stands for its own singular.
    singular = {key[0] for key in known if isinstance(key, tuple)}
    assert known <= set(all_messages()) <= known | singular


def test_no_message_is_left_out_or_in_doubt() -> None:
    assert [m.id for m in MESSAGES if m.fuzzy or not all(several(m.string))] == []


def test_every_form_has_the_places_of_its_message() -> None:
    assert [
        message.id
        for message, english, own in pairs()
        if places(own) != places(english)
        # "une image" may leave its count unsaid, as "a picture" does.
        and not (several(message.id)[0] == english and places(english) < places(own))
    ] == []


def test_no_message_is_left_in_english() -> None:
    same = {own for _, english, own in pairs() if own == english}
    # Places with nothing but marks between them have no words to translate.
    assert {own for own in same if re.search(r"\w", PLACE.sub("", own))} <= SAME


@pytest.mark.parametrize(
    ("fault", "pattern"),
    [
        # French typographic use (Lexique des règles typographiques, Imprimerie nationale;
        # value from memory): a no-break space before two-part marks and inside guillemets.
        ("a mark without its no-break space", r"(?<![\u00a0\u202f\d(*?])[;?!](?!\w)"),
        ("a colon without its no-break space", r"(?<![\u00a0\d]):(?!\d)"),
        ("an ordinary space before a mark", r" [:;?!»%]"),
        ("an ordinary space after a guillemet", r"«(?!\u00a0)"),
        ("a guillemet without its space", r"(?<!\u00a0)»"),
        ("English quotation marks", r"[“”\"]"),
        ("a straight apostrophe", r"'"),
        ("a doubled space", r"[ \u00a0\u202f]{2}"),
        ("a space at an end", r"^\s|\s$"),
    ],
)
def test_the_typography_is_french(fault: str, pattern: str) -> None:
    found = [own for _, english, own in pairs() if re.search(pattern, prose(english, own)[1])]
    assert found == [], fault


def test_sentences_end_as_their_messages_do() -> None:
    # Only full stops and dots: a French title need not ask where an English one does.
    assert [
        (english, own)
        for _, english, own in pairs()
        if not english.endswith("a.m.")
        and any(english.endswith(end) != own.endswith(end) for end in "….")
    ] == []


def test_each_menu_has_a_letter_of_its_own() -> None:
    menus = [(english, own) for _, english, own in pairs() if "&" in english or "&" in own]
    assert all(english.count("&") == own.count("&") == 1 for english, own in menus)
    letters = [own[own.index("&") + 1].lower() for _, own in menus]
    assert len(set(letters)) == len(letters)


def test_keys_that_are_named_stay_what_they_are() -> None:
    keys = re.compile(r"\b(?:Ctrl|Alt|F\d)\b")
    assert [
        english for _, english, own in pairs() if keys.findall(english) != keys.findall(own)
    ] == []


@pytest.mark.usefixtures("french")
def test_nought_and_one_are_singular_and_all_else_is_plural() -> None:
    """CLDR plural rules of French: "one" covers 0 and 1; a million is told by digits."""
    said = [tr_n("{n} exercise", "{n} exercises", n) for n in (0, 1, 2, 17, 1_000_000)]
    assert said == [
        "0 exercice",
        "1 exercice",
        "2 exercices",
        "17 exercices",
        "1000000 exercices",
    ]


@pytest.mark.usefixtures("french")
def test_the_words_of_the_trade_are_the_same_wherever_they_stand() -> None:
    assert [tr(word) for word in ("Must", "Should", "May")] == [
        "Obligatoire",
        "Conseillé",
        "Possible",
    ]
    assert tr("Undo “{name}”", name="x") == "Annuler «\u00a0x\u00a0»"


@pytest.mark.parametrize(
    ("english", "french"),
    [
        # Words of the trade (common practice, no source), one for one.
        (r"\bProtocols?\b(?! checks?)", r"protocole"),
        (r"\b[Cc]ards?\b", r"fiche"),
        (r"\b[Ss]tages?\b", r"étape"),
        (r"\b[Vv]ariants?\b", r"variante"),
        (r"\b[Rr]ungs?\b", r"échelon|règle d"),
        (r"\b[Ww]ording\b", r"texte"),
        (r"\bdemands?\b", r"contrainte"),
        (r"\b[Hh]andouts?\b", r"document"),
    ],
)
def test_a_noun_of_the_trade_has_one_french_name(english: str, french: str) -> None:
    meant = [
        (PLACE.sub("", own), source)
        for _, source, own in pairs()
        if re.search(english, prose(source, own)[0])
    ]
    assert meant
    assert [source for own, source in meant if not re.search(french, own, re.IGNORECASE)] == []
