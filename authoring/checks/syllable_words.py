"""Words whose spelling misleads the rules of :mod:`authoring.checks.syllables`.

Common words: counts as in the CMU Pronouncing Dictionary, the shortest of its
pronunciations. Trade words and shortened forms: counted by hand.
"""

from __future__ import annotations

from types import MappingProxyType

_COMMON = {
    1: "friend friends league priest tier tongue drawer drawers",
    2: """
        asian awesome barefoot bracelet business cafe cashier catholic chaos chocolate colleague
        colleagues comeback crooked cushion cushions diamond duo evening evenings eyebrow fashion
        fluid fluids forecast forehead friendly friendship genius genre goodbye grapefruit
        guideline guidelines hatred homesick household households hundred lifestyle lifetime
        lonesome maybe naked nineteen ninety pigeon premier rely ruin ruined safety sidewalk
        sideways soldier soldiers technique techniques unique warehouse wednesday wicked widespread
    """,
    3: """
        alliance anyone areas basically behavior behaviour businesses cereal compliance convenient
        dialogue everyday everything everywhere genuine implement implements influence influenced
        linear median nuclear policeman ratio recipe requirement requirements settlement suicide
        theater theatre vegetable vegetables whoever
    """,
    4: """
        canadian colonial elementary etc european everybody february genuinely influences
        laboratory nevertheless portfolio specifically
    """,
    5: "automatically negotiation negotiations",
    6: "simultaneously",
}

_TRADE = {
    2: "legged surgeon",
    3: "achilles gluteal soleus",
    4: "diabetes",
}

# Read letter by letter, or in full where they are units.
_SHORT = {
    2: "dr gp id min mins mr mrs ok pe pm sec secs tv uk eu vs",
    3: "acl dvt kg kgs mg mri nhs rom rpe usa",
    4: "cm km ml mm",
}

EXCEPTIONS = MappingProxyType(
    {
        word: count
        for group in (_COMMON, _TRADE, _SHORT)
        for count, line in group.items()
        for word in line.split()
    }
)
