"""Percent of the one-repetition maximum from repetitions, effort and reserve, and back."""

from __future__ import annotations

from collections.abc import Mapping
from math import floor

from immutabledict import immutabledict

from authoring.dosage.arithmetic.figure import Figure
from authoring.dosage.strength.equations import EQUATIONS, MOST_REPS, Equation
from authoring.dosage.strength.errors import StrengthError
from authoring.dosage.strength.estimate import MOST_RESERVE, one_rm
from authoring.model.load import IntRange, NumberRange

HANDBOOK: Mapping[int, float] = immutabledict(
    {
        1: 100.0,
        2: 95.0,
        3: 93.0,
        4: 90.0,
        5: 87.0,
        6: 85.0,
        7: 83.0,
        8: 80.0,
        9: 77.0,
        10: 75.0,
        11: 70.0,
        12: 67.0,
        15: 65.0,
    }
)
"""Percent of the 1RM by repetitions allowed: Haff GG, Triplett NT, eds., Essentials of Strength
Training and Conditioning (NSCA). Values from memory; at 11 and 12 public pages differ."""


def percent_of_max(reps: int, reserve: int = 0) -> Figure:
    """Percent of the 1RM at which so many repetitions leave so many in reserve.

    The range covers the equations that hold and the handbook's table.

    Raises:
        StrengthError: no equation holds.
    """
    multiples = one_rm(1.0, reps, reserve)
    ends = [100 / multiples.high, 100 / multiples.low]
    listed = HANDBOOK.get(reps + reserve)
    if listed is not None:
        ends.append(listed)
    return Figure(min(ends), min(100.0, max(ends)))


def percent_of_range(reps: IntRange, reserve: IntRange | None = None) -> Figure:
    """The same for ranges of repetitions and of reserve.

    Raises:
        StrengthError: no equation holds for an end of them.
    """
    left = reserve if reserve is not None else IntRange(low=0)
    light = percent_of_max(reps.top, left.top)
    heavy = percent_of_max(reps.low, left.low)
    return Figure(light.low, heavy.high)


def reserve_of_effort(effort: float) -> IntRange:
    """Repetitions in reserve at an effort from 0 to 10.

    Zourdos MC et al., J Strength Cond Res 2016;30:267-275, and Helms ER et al., Strength Cond
    J 2016;38(4):42-49: 10 none left, 9 one, 8 two, 7 three, 5 to 6 four to six; half steps
    lie between.

    Raises:
        StrengthError: below 5 the scale says nothing of repetitions left.
    """
    if not 5 <= effort <= 10:
        raise StrengthError(
            "effort-outside",
            "Only an effort from 5 to 10 says how many repetitions are left.",
            "Use repetitions in reserve, or a higher effort.",
        )
    if effort < 7:
        return IntRange(low=4, high=6)
    low = floor(10 - effort)
    whole = effort == floor(effort)
    return IntRange(low=low, high=None if whole or effort > 9 else low + 1)


def percent_of_effort(reps: IntRange, effort: NumberRange) -> Figure:
    """Percent of the 1RM of a set at an effort from 0 to 10.

    Raises:
        StrengthError: the effort or the repetitions are outside what is published.
    """
    least = reserve_of_effort(effort.top)
    most = reserve_of_effort(effort.low)
    left = IntRange(low=least.low, high=min(most.top, MOST_RESERVE))
    return percent_of_range(reps, left)


def reps_at_percent(percent: float) -> Figure:
    """Repetitions to failure at a percent of the 1RM, over the equations.

    Raises:
        StrengthError: so light that even the most repetitions are outside the equations, or
            above 100.
    """
    if not 0 < percent <= 100:
        raise StrengthError(
            "percent-outside",
            "The percent of the maximum must be above 0 and at most 100.",
            "Correct the percent.",
        )
    found = [reps for each in EQUATIONS if (reps := _reps_at(each, percent)) is not None]
    if not found:
        raise StrengthError(
            "percent-too-light",
            f"So light that more than {MOST_REPS} repetitions are possible, which no equation "
            "covers.",
            "Use an effort instead.",
        )
    return Figure(min(found), max(found))


def _reps_at(equation: Equation, percent: float) -> int | None:
    """Most repetitions at a percent, or None where they are more than the equation is used for."""
    if _share(equation, equation.most_reps + 1) >= percent:
        return None
    return max(r for r in range(1, equation.most_reps + 1) if _share(equation, r) >= percent)


def _share(equation: Equation, reps: int) -> float:
    return 100.0 if reps == 1 else 100 / equation.multiple(reps)
