"""Phrases for a child, or for whoever cares for the patient, in place of those for an adult."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache

from authoring import resources
from authoring.dosage.phrases import PhraseEntry, Phrases
from authoring.handout.choices import Audience
from authoring.handout.errors import HandoutError
from authoring.model.base import evolve


def phrases_for(phrases: Phrases, audience: Audience) -> Phrases:
    """The catalogue with the phrases that are said otherwise to this reader.

    Raises:
        HandoutError: the language has no wording for this reader.
    """
    if audience is Audience.ADULT:
        return phrases
    base = phrases.language.partition("-")[0]
    found = next((w for t in (phrases.language, base) if (w := _wording(t))), None)
    if found is None:
        known = ", ".join(languages_for_readers())
        raise HandoutError(
            f"There is no wording for a {audience} in the language {phrases.language!r}; leave "
            f"--for out, or choose one of: {known}."
        )
    return evolve(phrases, entries={**phrases.entries, **found[audience]})


def languages_for_readers() -> tuple[str, ...]:
    """Languages that have wording for a child and for whoever cares for the patient."""
    folder = resources.phrases() / "readers"
    return tuple(sorted(path.stem for path in folder.glob("*.json")))


@cache
def _wording(language: str) -> Mapping[str, Mapping[str, PhraseEntry]] | None:
    if language not in languages_for_readers():
        return None
    path = resources.phrases() / "readers" / f"{language}.json"
    found: Mapping[str, Mapping[str, PhraseEntry]] = json.loads(path.read_text("utf-8"))["readers"]
    return found
