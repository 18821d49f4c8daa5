"""What a projection says to the clinician: a stable code and one sentence."""

from __future__ import annotations

from attrs import frozen


@frozen
class Told:
    """A remark or a proposal.

    Attributes:
        code: stable code, lower-case words joined by hyphens.
        text: one sentence.
        source: what it rests on; "" where that is common practice.
    """

    code: str
    text: str
    source: str = ""


ACSM_2009 = "Ratamess NA et al., Med Sci Sports Exerc 2009;41:687-708"
NSCA = "Haff GG, Triplett NT, eds., Essentials of Strength Training and Conditioning (NSCA)"
EQUATIONS = "Published equations for the one-repetition maximum, each used both ways"
