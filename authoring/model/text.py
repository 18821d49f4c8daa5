"""Words for people: one string in the file's own language, or one for each language."""

from __future__ import annotations

import re
from collections.abc import Mapping

import attrs
from immutabledict import immutabledict

from authoring.model.base import LANGUAGE_TAG, LONGEST_TEXT, PRINTABLE, ModelError
from authoring.model.sentence import say

OWN = ""
"""Key of the words that are in the file's own language."""


def _check(values: Mapping[str, str]) -> None:
    if not values:
        raise ModelError("", say("A text must have words in at least one language."))
    for tag, words in values.items():
        if tag != OWN and not re.fullmatch(LANGUAGE_TAG, tag):
            raise ModelError("", say("{tag!r} is not a language tag such as en or pt-BR.", tag=tag))
        if len(words) > LONGEST_TEXT:
            raise ModelError(
                "", say("A text must have at most {most} characters.", most=LONGEST_TEXT)
            )
        if not re.fullmatch(PRINTABLE, words):
            raise ModelError("", say("A text holds a control character that can't be printed."))
    if OWN in values and len(values) > 1:
        raise ModelError("", say("A text is one string or a map by language, not both."))


@attrs.frozen
class Text:
    """Words a person reads.

    Attributes:
        values: words by BCP-47 tag; the single key "" stands for the language of the
            file that holds the text.
    """

    values: Mapping[str, str] = attrs.field(converter=immutabledict)

    def __attrs_post_init__(self) -> None:
        _check(self.values)

    @classmethod
    def plain(cls, words: str) -> Text:
        """Words in the file's own language."""
        return cls({OWN: words})

    def to(self, language: str, own: str) -> str | None:
        """The words in ``language``, or None where there are none.

        Args:
            language: tag asked for; a region is dropped where only the bare language
                is there ("en-GB" finds "en").
            own: tag of the file's own language.
        """
        by_tag = {(own if tag == OWN else tag): words for tag, words in self.values.items()}
        base = language.partition("-")[0]
        for tag in (language, base):
            if tag in by_tag:
                return by_tag[tag]
        return next((w for tag, w in by_tag.items() if tag.partition("-")[0] == base), None)

    def best(self, language: str, own: str) -> str:
        """The words in ``language``, else in the file's own, else in any."""
        return self.to(language, own) or self.to(own, own) or next(iter(self.values.values()))

    def __bool__(self) -> bool:
        return any(words.strip() for words in self.values.values())
