"""The phrase catalogues that come with the program, one file for each language."""

from __future__ import annotations

import json
import re
from functools import cache

from authoring import resources
from authoring.dosage.phrases import Phrases
from authoring.handout.errors import HandoutError
from authoring.model.base import LANGUAGE_TAG


def languages() -> tuple[str, ...]:
    """Tags of the languages a handout can be written in."""
    return tuple(sorted(path.stem for path in resources.phrases().glob("*.json")))


@cache
def load_phrases(language: str) -> Phrases:
    """The catalogue of a language, or of its base language ("en-GB" finds "en").

    Raises:
        HandoutError: there is none.
    """
    tags = (language, language.partition("-")[0])
    for tag in tags if re.fullmatch(LANGUAGE_TAG, language) else ():
        path = resources.phrases() / f"{tag}.json"
        if tag in languages():
            data = json.loads(path.read_text(encoding="utf-8"))
            return Phrases(language, data["phrases"])
    known = ", ".join(languages())
    raise HandoutError(
        f"There are no handout phrases for the language {language!r}; choose one of: {known}."
    )
