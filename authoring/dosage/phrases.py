"""A catalogue of phrases in one language, passed to whatever needs words.

A phrase is a text with named places (``{n}``), or one text for each plural form of
CLDR (``one``, ``few``, ``other`` …), chosen by a count. No catalogue is global.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from string import Formatter

import attrs
from babel import Locale, UnknownLocaleError
from babel.numbers import format_decimal

PhraseEntry = str | Mapping[str, str]


class PhraseMissingError(KeyError):
    """A phrase that the catalogue of this language does not have."""

    def __init__(self, key: str, language: str) -> None:
        super().__init__(key)
        self.key = key
        self.language = language

    def __str__(self) -> str:
        return f"The phrases for {self.language} have no {self.key!r}; add it to the catalogue."


@attrs.define(frozen=True, slots=False)
class Phrases:
    """Phrases of one language.

    Attributes:
        language: BCP-47 tag.
        entries: texts or plural maps by key.
    """

    language: str
    entries: Mapping[str, PhraseEntry]

    @cached_property
    def locale(self) -> Locale:
        """The CLDR locale that gives plural and number rules.

        A region that CLDR does not know ("en-AQ") has the rules of the bare language.
        """
        try:
            return Locale.parse(self.language, sep="-")
        except UnknownLocaleError:
            return Locale.parse(self.language.partition("-")[0])

    def say(self, key: str, /, **places: object) -> str:
        """A phrase with its places filled.

        Raises:
            PhraseMissingError: the catalogue has no such phrase, or only a plural one.
        """
        return self.pattern(key).format(**places)

    def pattern(self, key: str, /) -> str:
        """A phrase with its places left open.

        Raises:
            PhraseMissingError: as for :meth:`say`.
        """
        text = self.entries.get(key)
        if not isinstance(text, str):
            raise PhraseMissingError(key, self.language)
        return text

    def count(self, key: str, number: float, /, **places: object) -> str:
        """A plural phrase for a count; ``{n}`` is the number unless given.

        Raises:
            PhraseMissingError: the catalogue has no such plural phrase.
        """
        forms = self.entries.get(key)
        if not isinstance(forms, Mapping):
            raise PhraseMissingError(key, self.language)
        form = forms.get(str(self.locale.plural_form(number))) or forms["other"]
        return form.format(**{"n": self.number(number), **places})

    def number(self, value: float) -> str:
        """A number as this language writes it, at most two decimals."""
        return format_decimal(value, format="0.##", locale=self.locale)

    def span(self, low: float, high: float | None) -> str:
        """A number, or "8 to 12"."""
        if high is None or high == low:
            return self.number(low)
        return self.say("range", low=self.number(low), high=self.number(high))

    def listed(self, items: Sequence[str], kind: str = "and") -> str:
        """Items joined by commas and a last "and" (or "or")."""
        if len(items) <= 1:
            return "".join(items)
        return self.say(f"list.{kind}", first=", ".join(items[:-1]), last=items[-1])


def places_of(text: str) -> frozenset[str]:
    """Names of the places in a phrase."""
    return frozenset(name for _, name, _, _ in Formatter().parse(text) if name)
