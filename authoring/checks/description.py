"""Whether a card can be followed: purpose, start, steps and pictures."""

from __future__ import annotations

import re
from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.language import is_english
from authoring.checks.naming import listed, quoted
from authoring.checks.patient_text import own_words, pieces
from authoring.checks.placed import card_name, variant_name
from authoring.checks.result import Strength, Subject
from authoring.checks.sentences import sentences, words
from authoring.model.base import Node
from authoring.model.card import Card, Picture
from authoring.model.clinic import Logo
from authoring.model.sentence import say, say_n

CARD, CLINIC = Subject.CARD, Subject.CLINIC

STEPS_FEWEST = 2
STEP_LONG = 15
"""Words in a step (a reading of PEMAT item 22)."""
STEP_ADVISED = 8
"""Words in a step that the layout of the handout is made for (design choice)."""

# A sentence ends within the text only at one of these.
_STOP = re.compile(r"[.!?…。！？।؟\r\n\u2028\u2029]")
_LETTER = re.compile(r"\w")
_MORE_THAN_ONE = re.compile(r"\b(?:and |, )then\b|;", re.IGNORECASE)


@check(
    "purpose-missing",
    Strength.SHOULD,
    CARD,
    says="A card does not tell the patient what it is for.",
    why="PEMAT item 1: the purpose is obvious.",
)
def no_purpose(card: Card, _: Context) -> Iterator[Spot]:
    if not card.purpose:
        yield Spot(
            "purpose",
            say("{card} does not say what it is for.", card=card_name(card)),
            say("Say it in one line, in the patient's words."),
        )


@check(
    "start-position-missing",
    Strength.SHOULD,
    CARD,
    says="Variants have no start position.",
    why="CERT item 8: an exercise is described so that it can be repeated.",
)
def no_start(card: Card, _: Context) -> Iterator[Spot]:
    lacking = [(index, each) for index, each in enumerate(card.variants) if not each.start]
    if lacking:
        yield Spot(
            f"variants[{lacking[0][0]}].start",
            say_n(
                "{card} has {n} variant without a start position: {names}.",
                "{card} has {n} variants without a start position: {names}.",
                len(lacking),
                card=card_name(card),
                names=listed([variant_name(card, each) for _, each in lacking]),
            ),
            say("Say in one sentence how to stand, sit or lie."),
        )


@check(
    "steps-missing",
    Strength.SHOULD,
    CARD,
    says="Variants have fewer than two steps.",
    why="CERT item 8 and TIDieR item 4: the steps of the movement.",
)
def few_steps(card: Card, _: Context) -> Iterator[Spot]:
    lacking = [
        (index, each)
        for index, each in enumerate(card.variants)
        if sum(bool(step) for step in each.steps) < STEPS_FEWEST
    ]
    if lacking:
        yield Spot(
            f"variants[{lacking[0][0]}].steps",
            say_n(
                "{card} has {n} variant with fewer than {fewest} steps: {names}.",
                "{card} has {n} variants with fewer than {fewest} steps: {names}.",
                len(lacking),
                card=card_name(card),
                fewest=STEPS_FEWEST,
                names=listed([variant_name(card, each) for _, each in lacking]),
            ),
            say("Write the steps in order, one action each."),
        )


def _stops_within(step: str) -> bool:
    stop = _STOP.search(step)
    return stop is not None and _LETTER.search(step, stop.end()) is not None


def _steps(card: Card) -> Iterator[tuple[str, str]]:
    for v, variant in enumerate(card.variants):
        for s, step in enumerate(variant.steps):
            yield f"variants[{v}].steps[{s}]", own_words(step, card.language)


def _long_steps(card: Card) -> list[tuple[str, str, int]]:
    counted = (
        (path, step, len(words(step))) for path, step in _steps(card) if pieces(step) > STEP_ADVISED
    )
    return [each for each in counted if each[2] > STEP_ADVISED]


@check(
    "step-too-long",
    Strength.SHOULD,
    CARD,
    says="Steps have more than 15 words.",
    why="PEMAT item 22: small, explicit steps (the number is a reading of it).",
)
def too_long_steps(card: Card, context: Context) -> Iterator[Spot]:
    found = [
        each
        for each in context.once("steps", card, lambda: _long_steps(card))
        if each[2] > STEP_LONG
    ]
    if found:
        worst = max(found, key=lambda each: each[2])
        yield Spot(
            worst[0],
            say_n(
                "{card} has {n} step of more than {most} words, the longest with {words}: {step}.",
                "{card} has {n} steps of more than {most} words, the longest with {words}: {step}.",
                len(found),
                card=card_name(card),
                most=STEP_LONG,
                words=worst[2],
                step=quoted(worst[1]),
            ),
            say("Cut it into two steps, one action each."),
        )


@check(
    "step-wordy",
    Strength.MAY,
    CARD,
    says="Steps have more than 8 words.",
    why="The layout of the handout is made for steps of 8 words (design choice).",
)
def wordy_steps(card: Card, context: Context) -> Iterator[Spot]:
    found = context.once("steps", card, lambda: _long_steps(card))
    if found:
        yield Spot(
            found[0][0],
            say_n(
                "{card} has {n} step of more than {most} words, such as {step}.",
                "{card} has {n} steps of more than {most} words, such as {step}.",
                len(found),
                card=card_name(card),
                most=STEP_ADVISED,
                step=quoted(found[0][1]),
            ),
            say("Shorten them where nothing is lost."),
        )


@check(
    "step-several-actions",
    Strength.MAY,
    CARD,
    says="Steps ask for more than one action.",
    why="PEMAT item 22: one action for each step. English text only.",
)
def crowded_steps(card: Card, _: Context) -> Iterator[Spot]:
    if not is_english(card.language):
        return
    found = [
        (path, step)
        for path, step in _steps(card)
        if _MORE_THAN_ONE.search(step) or (_stops_within(step) and len(sentences(step)) > 1)
    ]
    if found:
        yield Spot(
            found[0][0],
            say_n(
                "{card} has {n} step of more than one action, such as {step}.",
                "{card} has {n} steps of more than one action, such as {step}.",
                len(found),
                card=card_name(card),
                step=quoted(found[0][1]),
            ),
            say("Make a step of each action."),
        )


# ---- pictures ---------------------------------------------------------------


@check(
    "alt-missing",
    Strength.MUST,
    CARD,
    CLINIC,
    says="A picture or logo has no words for a person who can't see it.",
    why="WCAG 2.2 success criterion 1.1.1; PDF/UA-1 (ISO 14289-1) clause 7.3.",
)
def no_alt(value: Node, context: Context) -> Iterator[Spot]:
    found = context.walk(value)
    pictures = [(path, say("picture"), each.alt) for path, each in found.nodes(Picture)]
    pictures += [(path, say("logo"), each.alt) for path, each in found.nodes(Logo)]
    for path, what, alt in pictures:
        if not alt:
            yield Spot(
                f"{path}.alt",
                say("A {what} has no words for a person who can't see it.", what=what),
                say("Say in one sentence what it shows."),
            )


@check(
    "pictures-missing",
    Strength.MAY,
    CARD,
    says="A card has no picture.",
    why="PEMAT items 15 and 26: a visual aid wherever it helps.",
)
def no_pictures(card: Card, _: Context) -> Iterator[Spot]:
    if card.variants and not any(variant.pictures for variant in card.variants):
        yield Spot(
            "variants[0].pictures",
            say("{card} has no picture.", card=card_name(card)),
            say("Add one of the start and one of the end."),
        )
