"""Plain language: grade, long sentences, hard and vague words, and translations.

The measures are for English; for other languages they say that they did not measure.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from attrs import NOTHING

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.naming import listed, quoted
from authoring.checks.passive_voice import HIGHEST_SHARE, PassiveShare, passive_share
from authoring.checks.patient_text import (
    PatientText,
    handout_texts,
    is_for_patients,
    own_words,
    patient_texts,
)
from authoring.checks.plain_words import hard_words, may_be_listed, vague_phrases
from authoring.checks.readability import Reading, ReadingGrade, ReadingLevel, grade
from authoring.checks.result import Strength, Subject
from authoring.checks.sentences import LONGEST_SENTENCE, long_sentences
from authoring.checks.walk import PlacedText
from authoring.model.base import Node, fields
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library
from authoring.model.protocol import Lesson, Protocol
from authoring.model.sentence import say, say_n

CARD, PROTOCOL, CLINIC, LIBRARY = Subject.CARD, Subject.PROTOCOL, Subject.CLINIC, Subject.LIBRARY
GRADES = (
    "American Medical Association: grade 6 or below (Weiss BD, Health literacy and patient safety, "
    "2007); National Institutes of Health, quoted variously as 6 to 8. Flesch-Kincaid over all "
    "words of the handout together; English only."
)


# ---- reading grade ------------------------------------------------------------


def _grade(protocol: Protocol, context: Context) -> Reading:
    return context.once(
        "grade", protocol, lambda: grade(handout_texts(protocol, context), protocol.language)
    )


@check(
    "reading-grade-high",
    Strength.SHOULD,
    PROTOCOL,
    says="The words for patients need more than eight years of school.",
    why=GRADES,
)
def high_grade(protocol: Protocol, context: Context) -> Iterator[Spot]:
    found = _grade(protocol, context)
    if isinstance(found, ReadingGrade) and found.level is ReadingLevel.TOO_HARD:
        yield Spot(
            "",
            say(
                "The words for patients have reading grade {grade:.1f}; 6 is advised, and above 8 "
                "is too hard.",
                grade=found.grade,
            ),
            say("Shorten sentences and use everyday words."),
        )


@check(
    "reading-grade-above-advice",
    Strength.MAY,
    PROTOCOL,
    says="The words for patients need more than six years of school.",
    why=GRADES,
)
def advised_grade(protocol: Protocol, context: Context) -> Iterator[Spot]:
    found = _grade(protocol, context)
    if isinstance(found, ReadingGrade) and found.level is ReadingLevel.HARDER_THAN_ADVISED:
        yield Spot(
            "",
            say(
                "The words for patients have reading grade {grade:.1f}; 6 is advised.",
                grade=found.grade,
            ),
            say("Shorten sentences and use everyday words."),
        )


@check(
    "reading-grade-not-measured",
    Strength.MAY,
    PROTOCOL,
    says="The reading grade is not measured, because the formulas are made for English.",
    why="A grade from a formula for another language would mislead.",
)
def unmeasured_grade(protocol: Protocol, context: Context) -> Iterator[Spot]:
    if isinstance(_grade(protocol, context), NotForLanguage):
        yield Spot(
            "language",
            say(
                "The reading grade is not measured for {language}: the formulas are made for "
                "English.",
                language=quoted(protocol.language),
            ),
            say("Let somebody read it who does not know the trade."),
        )


@check(
    "passive-voice",
    Strength.MAY,
    PROTOCOL,
    says="More than one in five sentences for patients is in the passive voice.",
    why="PEMAT item 5: active voice (80 percent is a common reading of it). English only.",
)
def passive(protocol: Protocol, context: Context) -> Iterator[Spot]:
    found = passive_share(handout_texts(protocol, context), protocol.language)
    if isinstance(found, PassiveShare) and found.share > HIGHEST_SHARE:
        yield Spot(
            "",
            say(
                "{passive} of {sentences} sentences for patients are in the passive voice.",
                passive=found.passive,
                sentences=found.sentences,
            ),
            say("Say who does what: “Bend your knee”, not “The knee is bent”."),
        )


# ---- sentences and words --------------------------------------------------------


def _suspects(value: Card | Protocol, context: Context) -> list[PatientText]:
    """Texts that can hold a listed word at all; most can't."""
    texts = patient_texts(value, value.language, context)
    return context.once("suspects", value, lambda: [t for t in texts if may_be_listed(t.runs)])


@check(
    "sentence-too-long",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="Sentences for patients have more than 20 words.",
    why="Common practice, no source. English only.",
)
def too_long(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    found = []
    for text in patient_texts(value, value.language, context):
        if text.pieces <= LONGEST_SENTENCE:
            continue
        sentences = long_sentences(text.words, value.language)
        if not isinstance(sentences, NotForLanguage):
            found += [(text.path, each) for each in sentences]
    if found:
        path, worst = max(found, key=lambda each: each[1].words)
        yield Spot(
            path,
            say_n(
                "{n} sentence has more than {most} words, the longest with {words}: {text}.",
                "{n} sentences have more than {most} words, the longest with {words}: {text}.",
                len(found),
                most=LONGEST_SENTENCE,
                words=worst.words,
                text=quoted(worst.text),
            ),
            say("Make two sentences of each."),
        )


@check(
    "vague-words",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="Instructions are too vague to follow (“as tolerated”).",
    why="PEMAT item 22: explicit steps. English only.",
)
def vague(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    places: dict[str, list[str]] = {}
    advice: dict[str, str] = {}
    for text in _suspects(value, context):
        found = vague_phrases(text.words, value.language)
        if not isinstance(found, NotForLanguage):
            for each in found:
                places.setdefault(each.word.lower(), []).append(text.path)
                advice.setdefault(each.word.lower(), each.suggestion or "")
    for word, paths in places.items():
        yield Spot(
            paths[0],
            say_n(
                "{word} is too vague to act on ({n} place).",
                "{word} is too vague to act on ({n} places).",
                len(paths),
                word=quoted(word),
            ),
            say("Say instead: {advice}.", advice=advice[word])
            if advice[word]
            else say("Say how much, or until when."),
        )


@check(
    "hard-words",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="Words of the trade stand in texts for patients, where an everyday one is known.",
    why="PEMAT items 3 and 4: everyday words; pairs from its guide and of the trade. English only.",
)
def hard(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    first = ""
    words: dict[str, str] = {}
    for text in _suspects(value, context):
        found = hard_words(text.words, value.language, context.clinic_words)
        if not isinstance(found, NotForLanguage):
            for each in found:
                if each.suggestion:
                    first = first or text.path
                    words.setdefault(each.word.lower(), each.suggestion)
    if words:
        pairs = [
            say("{word} (say {plain})", word=quoted(word), plain=quoted(plain))
            for word, plain in words.items()
        ]
        yield Spot(
            first,
            say_n(
                "Patients may not know {n} word: {pairs}.",
                "Patients may not know {n} words: {pairs}.",
                len(words),
                pairs=listed(pairs),
            ),
            say("Use the everyday word, or explain the other where it first stands."),
        )


_SUMS = re.compile(
    r"\d\s*(?:%|percent|per cent)\s*(?:of|max)\b|\b1\s?RM\b|\bper kg\b|\bhalf of your\b",
    re.IGNORECASE,
)
_CLAIMS = re.compile(
    r"\b(?:proven|guaranteed?|will (?:cure|heal|fix)|cures|always works|never fails)\b",
    re.IGNORECASE,
)


# One of these stands in every text that the pattern of the same name finds.
_SUM_SIGNS = frozenset(("of", "rm", "max", "kg", "half"))
_CLAIM_SIGNS = frozenset(
    ("proven", "guarantee", "guaranteed", "cure", "heal", "fix", "cures", "always", "never")
)


def _matching(
    value: Card | Protocol, context: Context, pattern: re.Pattern[str], signs: frozenset[str]
) -> list[tuple[str, str]]:
    if not is_english(value.language):
        return []
    return [
        (text.path, found.group())
        for text in patient_texts(value, value.language, context)
        if not signs.isdisjoint(text.runs)
        for found in pattern.finditer(text.words)
    ]


@check(
    "patient-sums",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="A text asks the patient to work something out.",
    why="PEMAT item 7: no calculations. English only.",
)
def sums(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    found = _matching(value, context, _SUMS, _SUM_SIGNS)
    if found:
        yield Spot(
            found[0][0],
            say(
                "Patients are asked to work out {names}.",
                names=listed([quoted(words) for _, words in found]),
            ),
            say("Give the result."),
        )


@check(
    "claim-without-source",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="A text promises an effect, and names no source for it.",
    why="CDC Clear Communication Index item 11: say what is known and what is not. English only.",
)
def claims(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    lessons = context.walk(value).nodes(Lesson)
    sourced = tuple(f"{path}." for path, lesson in lessons if lesson.sources)
    promised = _matching(value, context, _CLAIMS, _CLAIM_SIGNS)
    found = [each for each in promised if not each[0].startswith(sourced)]
    if found:
        yield Spot(
            found[0][0],
            say("A text promises {names}.", names=listed([quoted(words) for _, words in found])),
            say("Say “may help”, or name what it rests on."),
        )


# ---- languages ------------------------------------------------------------------


def _language(value: Card | Protocol | Clinic | Library) -> str:
    return value.manifest.language if isinstance(value, Library) else value.language


def _is_needed(found: PlacedText) -> bool:
    """Whether a text must be there: in a list, or in a field that has no default."""
    if found.path.endswith("]"):
        return True
    return any(each.name == found.name and each.default is NOTHING for each in fields(found.holder))


@check(
    "text-empty",
    Strength.MUST,
    CARD,
    PROTOCOL,
    CLINIC,
    LIBRARY,
    says="A text that is needed is empty.",
    why="It would print as nothing.",
)
def empty_texts(value: Node, context: Context) -> Iterator[Spot]:
    found = [
        each.path
        for each in context.walk(value).texts
        if not each.text and each.name != "alt" and _is_needed(each)
    ]
    if found:
        yield Spot(
            found[0],
            say_n(
                "{n} text is empty: {names}.",
                "{n} texts are empty: {names}.",
                len(found),
                names=listed([quoted(path) for path in found]),
            ),
            say("Write it, or take out what holds it."),
        )


@check(
    "text-without-own-language",
    Strength.MUST,
    CARD,
    PROTOCOL,
    CLINIC,
    LIBRARY,
    says="A text has words in other languages, and none in the language of its file.",
    why="Contract of the files: every text has words in the file's own language.",
)
def foreign_texts(value: Card | Protocol | Clinic | Library, context: Context) -> Iterator[Spot]:
    own = _language(value)
    found = [
        each.path
        for each in context.walk(value).texts
        if each.text and not own_words(each.text, own).strip()
    ]
    if found:
        yield Spot(
            found[0],
            say_n(
                "{n} text has no words in {own}: {names}.",
                "{n} texts have no words in {own}: {names}.",
                len(found),
                own=quoted(own),
                names=listed([quoted(path) for path in found]),
            ),
            say("Add the words in the file's own language."),
        )


@check(
    "translation-incomplete",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="Some texts for patients are translated into a language, and others are not.",
    why="A handout in that language would print a mixture.",
)
def part_translations(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    own = value.language
    texts = [each for each in context.walk(value).texts if is_for_patients(each)]
    tags = dict.fromkeys(chain.from_iterable(each.text.values for each in texts))
    for tag in tags:
        if not tag or tag == own:
            continue
        lacking = [each.path for each in texts if not each.text.to(tag, own)]
        if lacking:
            yield Spot(
                lacking[0],
                say(
                    "{lacking} of {texts} texts for patients have no words in {tag}.",
                    lacking=len(lacking),
                    texts=len(texts),
                    tag=quoted(tag),
                ),
                say("Translate the rest, or take the language out."),
            )
