"""Sentences in the passive voice, told by their form.

A form of "be" and then a past participle, a few adverbs between. States that
only look passive ("your knee is bent", "if you are tired") are left out. This is
a sign for a person to look, not a proof.
"""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen

from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.sentences import Piece, sentences, words

HIGHEST_SHARE = 0.2
"""Passive sentences in patient text: active in at least 80 %, a common reading of the
"active voice" item of PEMAT (AHRQ 2013)."""


@frozen
class Passive:
    """A passive verb, ``text[start:end]``, from its "be" to its participle."""

    text: str
    start: int
    end: int


@frozen
class PassiveShare:
    """How many sentences of a handout hold a passive verb."""

    sentences: int
    passive: int

    @property
    def share(self) -> float:
        """0 to 1; 0 where there is no sentence."""
        return self.passive / self.sentences if self.sentences else 0.0


_BE = frozenset(("am", "are", "be", "been", "being", "is", "was", "were"))
_BETWEEN = frozenset(("not", "never", "also", "then", "often", "always", "still", "now", "first"))
_MOST_BETWEEN = 2

_IRREGULAR_FORMS = """
    beaten begun bitten blown bought bound broken brought built caught chosen cut done drawn
    driven eaten felt found forgotten given gone grown heard held hidden hit hung hurt kept
    known laid learnt led left lent let lost made meant met paid put read ridden run said seen
    sent set shown shut slept sold spent split spoken spread stuck struck taken taught thought
    thrown told torn understood undone withheld withdrawn worn written
"""
_IRREGULAR = frozenset(_IRREGULAR_FORMS.split()) - {"gone", "run"}

# Ends in -ed or is a participle, but tells how something or someone is.
_STATE_WORDS = """
    advanced aged ashamed bent bored bothered closed committed complicated concerned confused
    contented crooked crossed detailed disabled disappointed dressed embarrassed excited
    experienced finished frightened hundred hurt injured inspired interested involved limited
    located motivated naked numbed pleased pregnant qualified related relaxed relieved rounded
    scared shut skilled supposed surprised swollen tempted tensed tired touched tucked worried
"""
_STATES = frozenset(_STATE_WORDS.split())


def passives(text: str, language: str) -> tuple[Passive, ...] | NotForLanguage:
    """Passive verbs of English text in order."""
    if not is_english(language):
        return NotForLanguage(language)
    return tuple(found for sentence in sentences(text) for found in _in_sentence(text, sentence))


def passive_share(texts: Iterable[str], language: str) -> PassiveShare | NotForLanguage:
    """Sentences with a passive verb among all sentences of English texts."""
    if not is_english(language):
        return NotForLanguage(language)
    found = [bool(_in_sentence(text, piece)) for text in texts for piece in sentences(text)]
    return PassiveShare(len(found), sum(found))


def _in_sentence(text: str, sentence: Piece) -> list[Passive]:
    found = words(sentence.text)
    plain = [word.text.lower() for word in found]
    passive = []
    for place, word in enumerate(plain):
        end = _participle_after(plain, place) if word in _BE else None
        if end is not None:
            start, stop = sentence.start + found[place].start, sentence.start + found[end].end
            passive.append(Passive(text[start:stop], start, stop))
    return passive


def _participle_after(plain: list[str], place: int) -> int | None:
    """Place of the participle that a form of "be" leads to, over a few adverbs."""
    for ahead in range(place + 1, min(place + 2 + _MOST_BETWEEN, len(plain))):
        word = plain[ahead]
        if word == "used" and plain[ahead + 1 : ahead + 2] == ["to"]:
            return None  # accustomed
        if _is_participle(word):
            return ahead
        if word not in _BETWEEN and not word.endswith("ly"):
            return None
    return None


def _is_participle(word: str) -> bool:
    if word in _STATES:
        return False
    return word in _IRREGULAR or (word.endswith("ed") and len(word) > 3 and word[-3] != "e")
