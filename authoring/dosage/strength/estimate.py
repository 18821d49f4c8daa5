"""Strength as a range over the published equations, never as one figure."""

from __future__ import annotations

from attrs import frozen

from authoring.dosage.strength.equations import EQUATIONS, LINEAR_REPS, MOST_REPS
from authoring.dosage.strength.errors import StrengthError

MOST_RESERVE = 5
"""Hackett DA et al., J Strength Cond Res 2017;31:2162-2168: error about one repetition when
0 to 5 remain, more than 2 when 7 to 10 remain."""


@frozen
class Estimate:
    """An estimate, in the unit of the weight that was lifted.

    Attributes:
        low, high: ends over the equations that hold.
        equations: names of those equations.
        beyond_linear: more than 10 repetitions: only the curved forms are used, and the error
            grows.
    """

    low: float
    high: float
    equations: tuple[str, ...]
    beyond_linear: bool = False

    @property
    def middle(self) -> float:
        """The middle of the range; the range is what is to be shown."""
        return (self.low + self.high) / 2


def one_rm(weight: float, reps: int, reserve: int = 0) -> Estimate:
    """The one-repetition maximum from one set.

    Args:
        weight: weight lifted, in any unit, above 0.
        reps: repetitions done with good form.
        reserve: repetitions that could still have been done; they count as done.

    Raises:
        StrengthError: no equation holds for these numbers.
    """
    _check(weight, reps, reserve)
    done = reps + reserve
    if done > MOST_REPS:
        raise StrengthError(
            "too-many-reps",
            f"{done} repetitions say too little about the most that can be lifted: the equations "
            f"hold up to {LINEAR_REPS}, some up to {MOST_REPS}.",
            "Test with a weight that allows fewer, best 3 to 10.",
        )
    if done == 1:
        return Estimate(weight, weight, ("lifted",))
    holding = [each for each in EQUATIONS if done <= each.most_reps]
    found = [weight * each.multiple(done) for each in holding]
    return Estimate(
        min(found), max(found), tuple(each.name for each in holding), done > LINEAR_REPS
    )


def _check(weight: float, reps: int, reserve: int) -> None:
    if not 0 < weight < float("inf"):
        raise StrengthError(
            "no-weight", "The weight must be above 0.", "Give the weight that was lifted."
        )
    if reps < 1:
        raise StrengthError(
            "no-reps", "At least one repetition must have been done.", "Give how many were done."
        )
    if not 0 <= reserve <= MOST_RESERVE:
        raise StrengthError(
            "reserve-too-large",
            f"{reserve} repetitions in reserve can't be judged: the error is about 1 with 0 to "
            f"{MOST_RESERVE} left and above 2 with 7 to 10.",
            "Test nearer to the limit, or leave the reserve out.",
        )


def n_rm(maximum: float, reps: int) -> Estimate:
    """The most that can be lifted ``reps`` times, from the one-repetition maximum.

    Raises:
        StrengthError: no equation holds for so many repetitions.
    """
    multiples = one_rm(1.0, reps)
    low, high = maximum / multiples.high, maximum / multiples.low
    return Estimate(low, high, multiples.equations, multiples.beyond_linear)


def n_rm_from_set(weight: float, reps: int, wanted: int, reserve: int = 0) -> Estimate:
    """The most that can be lifted ``wanted`` times, from a set of ``reps``.

    The range is over the equations, each used both ways, so that it is nil where both numbers
    are the same.

    Raises:
        StrengthError: no equation holds for one of the numbers.
    """
    one_rm(weight, reps, reserve)
    one_rm(weight, wanted)
    done = reps + reserve
    most = max(done, wanted)
    holding = [each for each in EQUATIONS if most <= each.most_reps]
    found = [
        weight * _multiple(each.multiple(done), done) / _multiple(each.multiple(wanted), wanted)
        for each in holding
    ]
    names = tuple(each.name for each in holding)
    return Estimate(min(found), max(found), names, most > LINEAR_REPS)


def _multiple(found: float, reps: int) -> float:
    """One repetition is the maximum itself, whatever an equation says."""
    return 1.0 if reps == 1 else found
