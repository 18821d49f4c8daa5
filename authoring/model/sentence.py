"""Sentences that can be said again in another language.

A lower room says what it has to say in English and knows no other language. A
:class:`Sentence` is that English text and also remembers the template and the places it was
made of, so that an interface can look the template up in a catalogue, say each place that
is a sentence itself, and fill them in. Every template stands as a literal where
:func:`say` or :func:`say_n` is called: that is where catalogues find it.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from immutabledict import immutabledict


class Sentence(str):
    """Words in English, with what they were made of; equal to the plain words.

    Attributes:
        template: text with named places (``{name}``); for one thing where things are counted.
        other: the template for any other number, "" where nothing is counted.
        number: how many, which stands in the place ``{n}``.
        places: what stands in the other places, sentences among it.
        shape: "unstopped" to go on in another sentence, "opened" to begin one, else "".
    """

    __slots__ = ("number", "other", "places", "shape", "template")

    template: str
    other: str
    number: int
    places: Mapping[str, object]
    shape: str

    def __new__(
        cls,
        template: str,
        places: Mapping[str, object],
        other: str = "",
        number: int = 0,
        shape: str = "",
    ) -> Sentence:
        """Fill the places of a template.

        Raises:
            LookupError: the template has a place that is not given.
        """
        chosen = other if other and number != 1 else template
        filled = {name: _plain(value) for name, value in places.items()}
        if other:
            filled["n"] = number
        made = super().__new__(cls, shaped(chosen.format(**filled), shape))
        made.template, made.other, made.number = template, other, number
        made.places, made.shape = immutabledict(places), shape
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        """How the sentence travels to another process: by its parts."""
        return Sentence, (self.template, self.places, self.other, self.number, self.shape)


def unstopped(sentence: Sentence) -> Sentence:
    """A sentence without its full stop, to go on in another."""
    return Sentence(
        sentence.template, sentence.places, sentence.other, sentence.number, "unstopped"
    )


def opened(sentence: Sentence) -> Sentence:
    """Words that begin a sentence, with a capital."""
    return Sentence(sentence.template, sentence.places, sentence.other, sentence.number, "opened")


def shaped(words: str, shape: str) -> str:
    """Words, in any language, in the shape that a sentence asks for."""
    if shape == "unstopped":
        return words.removesuffix(".")
    return words[:1].upper() + words[1:] if shape == "opened" else words


def _plain(value: object) -> object:
    """A place in English: a value of a closed list as its words in the files."""
    return value.value.replace("_", " ") if isinstance(value, StrEnum) else value


def say(template: str, /, **places: object) -> Sentence:
    """A sentence, its places filled with words, numbers, values of closed lists or sentences."""
    return Sentence(template, places)


def say_n(one: str, other: str, count: int, /, **places: object) -> Sentence:
    """A sentence about ``count`` things; the count stands in the place ``{n}``."""
    return Sentence(one, places, other, count)
