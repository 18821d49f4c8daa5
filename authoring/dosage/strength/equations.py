"""Published equations that estimate the one-repetition maximum from a set to failure.

``r`` is the number of repetitions done, ``w`` the weight; each gives the 1RM as a multiple
of ``w``. The coefficients of Brzycki, Epley and Lander were read in a source that quotes the
originals; those of Lombardi, Mayhew, O'Conner and Wathan are values from memory, checked
only against one another and against tables of repetitions.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp

from attrs import frozen


@frozen
class Equation:
    """One published equation.

    Attributes:
        name: author and year.
        source: where it was published.
        most_reps: most repetitions it is used for here. The linear forms hold up to 10
            (Reynolds, Gordon, Robergs, J Strength Cond Res 2006;20:584-592); beyond 15 no form
            is used.
        multiple: repetitions to multiple of the weight.
    """

    name: str
    source: str
    most_reps: int
    multiple: Callable[[float], float]


EQUATIONS: tuple[Equation, ...] = (
    Equation(
        "Epley 1985",
        "Epley B. Poundage chart. Boyd Epley Workout. Lincoln NE, 1985",
        10,
        lambda r: 1 + r / 30,
    ),
    Equation(
        "Lander 1985",
        "Lander J. Maximums based on reps. NSCA J 1985;6(6):60-61",
        10,
        lambda r: 100 / (101.3 - 2.67123 * r),
    ),
    Equation(
        "Lombardi 1989",
        "Lombardi VP. Beginning weight training. Dubuque IA, 1989",
        15,
        lambda r: r**0.10,
    ),
    Equation(
        "O'Conner 1989",
        "O'Conner B, Simmons J, O'Shea P. Weight training today. St Paul MN, 1989",
        10,
        lambda r: 1 + 0.025 * r,
    ),
    Equation(
        "Mayhew 1992",
        "Mayhew JL et al. J Appl Sport Sci Res 1992;6:200-206",
        15,
        lambda r: 100 / (52.2 + 41.9 * exp(-0.055 * r)),
    ),
    Equation(
        "Brzycki 1993",
        "Brzycki M. J Phys Educ Recreat Dance 1993;64(1):88-90",
        10,
        lambda r: 36 / (37 - r),
    ),
    Equation(
        "Wathan 1994",
        "Wathan D. Load assignment. In: Baechle TR, ed. Essentials of strength training and "
        "conditioning. Champaign IL, 1994",
        15,
        lambda r: 100 / (48.8 + 53.8 * exp(-0.075 * r)),
    ),
)

MOST_REPS = max(equation.most_reps for equation in EQUATIONS)
"""More repetitions than this give no estimate."""

LINEAR_REPS = 10
"""Up to here every equation holds."""
