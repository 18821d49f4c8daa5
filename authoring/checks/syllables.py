"""Syllables of an English word, as it is spoken.

No packaged counter fitted: the ones with a pronouncing dictionary inside are
under the GPL, and hyphenation patterns count one word in seven of the 5,000
commonest short, because they never break off a single letter. So spelling rules
count the groups of vowels and mend the usual exceptions (silent e, two vowels
spoken apart), and :mod:`authoring.checks.syllable_words` lists common and trade
words that break the rules. The tests measure the result against the CMU
Pronouncing Dictionary.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from authoring.checks.syllable_words import EXCEPTIONS

_VOWELS = re.compile(r"[aeiouy]+")
_CONSONANT_Y = re.compile(r"^y(?=[aeiou])|(?<=[aeou])y(?=[aeo])")  # yet, player


def _any_of(*patterns: str) -> re.Pattern[str]:
    return re.compile("|".join(patterns))


_SILENT_E = _any_of(
    r"(?<=[^aeiou])e(?=$|s$|ly$|less|ful|ments?$|ness)",  # raise, safely, movement
    r"(?<=[^aeioutd])e(?=d$)",  # raised, but lifted
    # something, homework, baseline
    r"(?<=[aeiou][mrvnthks])e(?=(?:time|thing|body|where|what|how|side|day|self|line|style"
    r"|work|land|ball|place|fore|boat|way|man|men|room|guard|point)s?$)",
)
_SPOKEN_E = _any_of(
    r"(?<=[cgsxz])es$",  # pieces
    r"(?<=[cs]h)es$",  # stretches
    r"(?<=[bcdfgkpstz]l)e[sd]?$",  # muscle, settled
    r"(?<=[bcdfgkpt]r)es?$",  # centre
    r"(?<=cr)ed$",  # sacred
    r"(?<=[aeiou]l)ement",  # element
)
_APART = _any_of(
    # i and a
    r"(?<![cstgxlnvd])ia(?=[nlsbcdmrt]|$)",  # diagram
    r"(?<=d)ia(?=l|[^aeiou][aeiou]|s?$)",  # radial
    r"(?<=[aeiou][lnv])ia(?=[tb])",  # variable
    r"^[a-z]{1,2}ia(?=[^aeiou])",  # giant
    r"(?<=[nlvrtc])ia$",  # criteria
    r"(?<=[cs])iat",  # associate
    # i and o, u, e
    r"(?<![cstgxln])io(?![uo])",  # period, but motion
    r"^[^aeiou]io",  # lion
    r"(?<![cstgxln])iou",  # previous
    r"(?<=phys)io|(?<=^ost)e(?=o)|(?<=^oste)o(?=a)",  # physiotherapy, osteoarthritis
    r"iu[ms]",  # medium
    r"[^aeiou]i(?=ers?$|est$)",  # easier
    r"(?<![cstxgnr])ie(?=nt|nc|ty$|ti)",  # patient has t, client does not
    r"(?<=[aeou]r)ie(?=n[ct])",  # experience
    r"(?<=[aeo]n)ien",  # convenient
    r"^[a-z]{1,2}ien",  # science
    r"(?<=[^aeiouh])iet",  # diet
    # u and a, e, o, i
    r"(?<![gqn])ua(?!r[dy]|de|ble)",  # actual, but equal, guard
    r"(?<=n)ua[lrt]",  # manual
    r"(?<![gqv])uou",  # continuous
    r"(?<![gq])ue(?=nt|l$)",  # fluent
    r"uie",  # quiet
    # e and o, a, u
    r"(?<=[^aeiou])eo(?=[nlgs]?$|lo|gr)",  # video
    r"(?<=cr)ea(?=t[eio])",  # create
    r"(?<=^r)ea(?=ct|li)",  # react, reality
    r"(?<=r)ea$",  # area
    r"(?<=id)ea(?=s?$)",  # idea
    r"eum",  # museum
    r"(?<=[pr])oe[mt]",  # poem
    # before an ending
    r"(?<!e)[aeiouy](?=ing(?:s|ly)?$)",  # going
    r"ee(?=ing$)",  # seeing
    r"ire(?=[sd]?$|ly$|ment)",  # tired
    r"(?<=y)re[sd]?$",  # tyre
    r"^bi(?=[aeo])",  # biopsy
)
_VOWELLESS = _any_of(r"(?:sm|thm)s?$", r"[ds]n[’']t$")  # spasm, rhythm, didn't

_SEPARATORS = re.compile(r"[^\w’']+|_+")
_LETTERS = re.compile(r"[a-z’']+|[0-9]+")
_INITIALS = re.compile(r"(?:[a-z]\.)+[a-z]?")
_SPOKEN_DIGITS = (2, 1, 1, 1, 1, 1, 1, 2, 1, 1)
_SPOKEN_TEENS = (1, 3, 1, 2, 2, 2, 2, 3, 2, 2)
_CENTURY = 100
_MOST_SPOKEN = 10_000


@lru_cache(maxsize=65_536)
def syllables(word: str) -> int:
    """Spoken syllables of one English word; 0 only where nothing is spoken.

    Hyphenated words are the sum of their parts. Numbers are read aloud (12 is
    "twelve", 1; 2.5 is "two point five", 3), as Flesch counted them (value from
    memory). Initials and capitals of up to four letters without a vowel are
    spelled out ("e.g." 2, "MRI" is listed). Any other script counts as one
    syllable a word: callers ask for English only.
    """
    plain = _fold(word)
    if _INITIALS.fullmatch(plain):
        return sum(_letter(sign) for sign in plain if sign.isalpha())
    parts = [part.strip("’'") for part in _SEPARATORS.split(plain)]
    joins = _decimal_points(plain)
    return joins + sum(_part(part) for part in parts if part)


def _fold(word: str) -> str:
    """Lower case without accents, so that "café" meets the same rules."""
    spread = unicodedata.normalize("NFKD", word.lower())
    return "".join(sign for sign in spread if not unicodedata.combining(sign))


def _decimal_points(word: str) -> int:
    return len(re.findall(r"(?<=\d)\.(?=\d)", word))


def _part(part: str) -> int:
    runs = _LETTERS.findall(part)
    if not runs:
        return 1
    return sum(_number(run) if run[0].isdigit() else _spelled(run) for run in runs)


def _spelled(word: str) -> int:
    bare = word.replace("’", "'")
    listed = EXCEPTIONS.get(bare)
    if listed is None and bare.endswith("'s"):
        return _possessive(bare[:-2])
    if listed is not None:
        return listed
    if not _VOWELS.search(bare) and len(bare) <= 4:
        return sum(_letter(sign) for sign in bare if sign.isalpha())
    return by_rule(bare)


def _possessive(owner: str) -> int:
    hissing = owner.endswith(("s", "x", "z", "ch", "sh", "ce", "se", "ge"))
    return _spelled(owner) + (1 if hissing else 0) if owner else 1


def _letter(sign: str) -> int:
    return 3 if sign == "w" else 1


def by_rule(word: str) -> int:
    """Syllables of one lower-case word by its spelling alone; at least 1."""
    shaped = _CONSONANT_Y.sub("j", word)
    groups = len(_VOWELS.findall(shaped)) - len(_SILENT_E.findall(shaped))
    added = sum(len(rule.findall(shaped)) for rule in (_SPOKEN_E, _APART, _VOWELLESS))
    return max(1, groups + added)


def _number(digits: str) -> int:
    """Syllables of a whole number read aloud; long ones digit by digit."""
    value = int(digits) if len(digits) <= 5 else _MOST_SPOKEN
    if value >= _MOST_SPOKEN or (len(digits) > 1 and digits[0] == "0"):
        return sum(_SPOKEN_DIGITS[int(sign)] for sign in digits)
    thousands, rest = divmod(value, 1000)
    hundreds, last = divmod(rest, _CENTURY)
    spoken = _SPOKEN_DIGITS[thousands] + 2 if thousands else 0  # "thousand"
    spoken += _SPOKEN_DIGITS[hundreds] + 2 if hundreds else 0  # "hundred"
    if last or not value:
        spoken += _below_hundred(last)
    return spoken


def _below_hundred(value: int) -> int:
    if value < 10:
        return _SPOKEN_DIGITS[value]
    if value < 20:
        return _SPOKEN_TEENS[value - 10]
    tens, ones = divmod(value, 10)
    return (3 if tens == 7 else 2) + (_SPOKEN_DIGITS[ones] if ones else 0)
