"""Reading grade of patient text, from published formulas.

The formulas take counts only. :func:`grade` pools a whole handout, because each
formula is unstable on a few short steps. Grades are United States school years.

No formula understands a text: a low grade is no proof that patients understand it.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from functools import lru_cache
from math import sqrt

from attrs import frozen

from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.sentences import Piece, sentences, words
from authoring.checks.syllables import syllables

MIN_WORDS = 100
"""Fewest words the formulas are read from (value from memory of their papers' samples)."""
MIN_SENTENCES = 3
SMOG_SENTENCES = 30
"""Sentences that SMOG was made for (McLaughlin 1969)."""

ADVISED_GRADE = 6.0
"""American Medical Association advice for patient material: grade 6 or below (Weiss 2007)."""
HIGHEST_GRADE = 8.0
"""Upper end of the grades quoted for the National Institutes of Health, 6 to 8."""

_LONGEST_WORD = 64


@frozen
class TextCounts:
    """What the formulas need to know of a text. Counts of several texts add up.

    Attributes:
        words: hyphenated words and numbers count once.
        sentences: steps without a full stop included.
        syllables: as spoken, numbers read aloud.
        polysyllables: words of three syllables or more.
        hard_words: polysyllables less names, compounds of easy words, and verbs
            that reach three only by -es, -ed or -ing (Gunning).
        letters: letters and digits.
        characters: all signs but blanks.
    """

    words: int = 0
    sentences: int = 0
    syllables: int = 0
    polysyllables: int = 0
    hard_words: int = 0
    letters: int = 0
    characters: int = 0

    def __add__(self, other: TextCounts) -> TextCounts:
        return TextCounts(
            words=self.words + other.words,
            sentences=self.sentences + other.sentences,
            syllables=self.syllables + other.syllables,
            polysyllables=self.polysyllables + other.polysyllables,
            hard_words=self.hard_words + other.hard_words,
            letters=self.letters + other.letters,
            characters=self.characters + other.characters,
        )


class ReadingLevel(StrEnum):
    """A Flesch-Kincaid grade against the advice for patient material."""

    EASY = "easy"
    HARDER_THAN_ADVISED = "harder than advised"
    TOO_HARD = "too hard"


@frozen
class ReadingGrade:
    """The scores of one text long enough to score.

    ``grade`` is the Flesch-Kincaid grade, the one to act on; the rest is for
    comparison. ``smog`` is None below 30 sentences, which it was made for.
    """

    counts: TextCounts
    flesch_ease: float
    grade: float
    smog: float | None
    fog: float
    coleman_liau: float
    ari: float

    @property
    def level(self) -> ReadingLevel:
        """Easy up to grade 6, harder than advised up to 8, too hard above; unrounded."""
        if self.grade <= ADVISED_GRADE:
            return ReadingLevel.EASY
        if self.grade <= HIGHEST_GRADE:
            return ReadingLevel.HARDER_THAN_ADVISED
        return ReadingLevel.TOO_HARD


@frozen
class TooShort:
    """Fewer than 100 words or 3 sentences: no formula is to be trusted."""

    counts: TextCounts


Reading = ReadingGrade | TooShort | NotForLanguage


# ---- formulas ---------------------------------------------------------------
# Each raises ZeroDivisionError where words or sentences are 0.


def flesch_reading_ease(words: int, sentences: int, syllables: int) -> float:
    """Flesch R. J Appl Psychol 1948;32:221-233. About 0 (hard) to 100 (easy)."""
    return 206.835 - 1.015 * words / sentences - 84.6 * syllables / words


def flesch_kincaid_grade(words: int, sentences: int, syllables: int) -> float:
    """Kincaid JP et al. Naval Technical Training Command, Research Branch Report 8-75, 1975."""
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59


def smog_grade(polysyllables: int, sentences: int) -> float:
    """McLaughlin GH. J Reading 1969;12:639-646, scaled to 30 sentences."""
    return 1.0430 * sqrt(polysyllables * SMOG_SENTENCES / sentences) + 3.1291


def gunning_fog(words: int, sentences: int, hard_words: int) -> float:
    """Gunning R. The Technique of Clear Writing, McGraw-Hill, 1952."""
    return 0.4 * (words / sentences + 100 * hard_words / words)


def coleman_liau(letters: int, words: int, sentences: int) -> float:
    """Coleman M, Liau TL. J Appl Psychol 1975;60:283-284."""
    return 0.0588 * (100 * letters / words) - 0.296 * (100 * sentences / words) - 15.8


def automated_readability_index(characters: int, words: int, sentences: int) -> float:
    """Smith EA, Senter RJ. Automated readability index, AMRL-TR-66-220, 1967."""
    return 4.71 * characters / words + 0.5 * words / sentences - 21.43


# ---- counting ---------------------------------------------------------------


def count(texts: str | Iterable[str]) -> TextCounts:
    """Counts of English text; several texts are counted apart and added up."""
    if isinstance(texts, str):
        return _count_text(texts)
    return sum((_count_text(text) for text in texts), TextCounts())


def grade(texts: str | Iterable[str], language: str) -> Reading:
    """The reading grade of all ``texts`` of a handout pooled.

    ``language`` is a BCP 47 tag; the formulas hold for English alone.
    """
    if not is_english(language):
        return NotForLanguage(language)
    return grade_counts(count(texts))


def grade_counts(counts: TextCounts) -> ReadingGrade | TooShort:
    """The reading grade of English text already counted."""
    if counts.words < MIN_WORDS or counts.sentences < MIN_SENTENCES:
        return TooShort(counts)
    size = counts.words, counts.sentences
    enough = counts.sentences >= SMOG_SENTENCES
    return ReadingGrade(
        counts=counts,
        flesch_ease=flesch_reading_ease(*size, counts.syllables),
        grade=flesch_kincaid_grade(*size, counts.syllables),
        smog=smog_grade(counts.polysyllables, counts.sentences) if enough else None,
        fog=gunning_fog(*size, counts.hard_words),
        coleman_liau=coleman_liau(counts.letters, *size),
        ari=automated_readability_index(counts.characters, *size),
    )


@lru_cache(maxsize=16_384)
def _count_text(text: str) -> TextCounts:
    return sum((_count_sentence(piece) for piece in sentences(text)), TextCounts())


def _count_sentence(sentence: Piece) -> TextCounts:
    found = [piece.text for piece in words(sentence.text)]
    spoken = [_spoken(word) for word in found]
    return TextCounts(
        words=len(found),
        sentences=1 if found else 0,
        syllables=sum(spoken),
        polysyllables=sum(each >= 3 for each in spoken),
        hard_words=sum(
            is_hard_word(word, each, opens=place == 0)
            for place, (word, each) in enumerate(zip(found, spoken, strict=True))
        ),
        letters=sum(sign.isalnum() for word in found for sign in word),
        characters=sum(not sign.isspace() for sign in sentence.text),
    )


def _spoken(word: str) -> int:
    """Syllables; a run of signs too long to be a word is cut, so that it costs no time."""
    return syllables(word[:_LONGEST_WORD])


def is_hard_word(word: str, spoken: int, *, opens: bool) -> bool:
    """Whether a word counts as hard for Gunning's index.

    ``spoken`` is its syllables; ``opens`` says that it opens its sentence, where a
    capital is no sign of a name. Gunning's exclusions are given from memory.
    """
    if spoken < 3 or not any(sign.isalpha() for sign in word):
        return False
    if word[0].isupper() and not opens:
        return False
    if "-" in word:
        return any(_spoken(part) >= 3 for part in word.split("-"))
    return not (spoken == 3 and _stem_is_easy(word.lower()))


def _stem_is_easy(word: str) -> bool:
    """Whether -es, -ed or -ing alone made the third syllable."""
    for ending in ("es", "ed", "ing"):
        stem = word.removesuffix(ending)
        if stem != word:
            return 0 < _spoken(stem) < 3 or 0 < _spoken(stem + "e") < 3
    return False
