"""Sentences of the lower rooms in the language of the interface. No Qt here."""

from __future__ import annotations

import enum
import string
from typing import Any

from authoring.editor.i18n import decimal_sign, form_for, language, tr
from authoring.editor.vocabulary_words import words_of
from authoring.model.sentence import Sentence, shaped


class _Places(string.Formatter):
    """Fills places as the language in use writes them."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """A number with the language's own decimal sign; all else as it stands."""
        words = str(super().format_field(value, format_spec))
        return words.replace(".", decimal_sign()) if isinstance(value, float) else words


_PLACES = _Places()


def said(words: str) -> str:
    """Words in the language of the interface, where they know what they are made of.

    Args:
        words: a :class:`Sentence`, said from its template with each of its places said
            likewise; any other text comes back as it is.
    """
    if not isinstance(words, Sentence) or language() == "en":
        return str(words)
    places = {name: _place(value) for name, value in words.places.items()}
    if words.other:
        template = form_for(words.template, words.other, words.number)
        places["n"] = words.number
    else:
        template = tr(words.template)
    return shaped(_PLACES.vformat(template, (), places), words.shape)


def _place(value: object) -> object:
    if isinstance(value, enum.Enum):
        word = words_of(value)
        return word[:1].lower() + word[1:]
    return said(value) if isinstance(value, str) else value
