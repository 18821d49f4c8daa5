"""Masses, centres and lengths of the parts of a body, for a mass and a stature.

Source: de Leva P, J Biomech 1996;29(9):1223-1230, table 4, the mean of women and men, since
a card does not know whose body it is. Lengths are those of that table's own group (values
from memory), so that masses, centres and lengths belong to the same people; sets are never
mixed. What the table does not give (widths, heights above the sole) is an assumption of the
drawn figure.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from attrs import frozen

G: Final = 9.80665
"""Standard acceleration of free fall, m/s² (ISO 80000-3)."""

_STATURE_MM: Final = (1741.0, 1735.0)
"""Men, women of the table's group."""

_MASS: Final[Mapping[str, tuple[float, float]]] = {
    "head": (0.0694, 0.0668),
    "upper_trunk": (0.1596, 0.1545),
    "middle_trunk": (0.1633, 0.1465),
    "pelvis": (0.1117, 0.1247),
    "upper_arm": (0.0271, 0.0255),
    "forearm": (0.0162, 0.0138),
    "hand": (0.0061, 0.0056),
    "thigh": (0.1416, 0.1478),
    "shank": (0.0433, 0.0481),
    "foot": (0.0137, 0.0129),
}
"""Share of body mass: men, women. Limbs count once a side."""

_CENTRE: Final[Mapping[str, tuple[float, float]]] = {
    "head": (0.5002, 0.4841),  # from the vertex, of vertex to C7
    "upper_trunk": (0.2999, 0.2077),
    "middle_trunk": (0.4502, 0.4512),
    "pelvis": (0.6115, 0.4920),
    "upper_arm": (0.5772, 0.5754),
    "forearm": (0.4574, 0.4559),
    "hand": (0.7900, 0.7474),  # of wrist to third knuckle
    "thigh": (0.4095, 0.3612),
    "shank": (0.4395, 0.4352),
    "foot": (0.4415, 0.4014),  # from the heel, of heel to toe tip
}
"""Centre of mass from the upper end, share of the part's length: men, women."""

_LENGTH_MM: Final[Mapping[str, tuple[float, float]]] = {
    "head": (242.9, 243.7),
    "upper_trunk": (170.7, 142.5),
    "middle_trunk": (215.5, 205.3),
    "pelvis": (145.7, 181.5),
    "shoulders_to_hips": (515.5, 497.9),
    "neck_to_hips": (603.3, 614.8),
    "upper_arm": (281.7, 275.1),
    "forearm": (268.9, 264.3),
    "knuckles": (86.2, 78.0),
    "thigh": (422.2, 368.5),
    "shank": (440.3, 438.6),
    "foot": (258.1, 228.3),
}

PAIRED: Final = ("upper_arm", "forearm", "hand", "thigh", "shank", "foot")


@frozen
class Person:
    """Whose load it is.

    Attributes:
        mass_kg: body mass.
        height_cm: stature.
    """

    mass_kg: float = 70.0
    height_cm: float = 170.0

    @property
    def height_m(self) -> float:
        return self.height_cm / 100.0

    @property
    def weight_n(self) -> float:
        """Body weight, newtons."""
        return self.mass_kg * G


@frozen
class Sizes:
    """Parts of one body.

    Attributes:
        mass: kilograms of head, chest, pelvis, and of one limb part each.
        length: metres.
        centre: metres from the upper end (pelvis and chest: from their lower end) to the
            centre of mass.
    """

    mass: Mapping[str, float]
    length: Mapping[str, float]
    centre: Mapping[str, float]


def _mean(pair: tuple[float, float]) -> float:
    return sum(pair) / 2


def _lengths(sex: int, height_m: float) -> dict[str, float]:
    known = {key: pair[sex] / _STATURE_MM[sex] * height_m for key, pair in _LENGTH_MM.items()}
    known["chest"] = known["shoulders_to_hips"] - known["pelvis"]
    known["neck"] = known["neck_to_hips"] - known["shoulders_to_hips"]
    return known


def _chest_centre(sex: int, long: Mapping[str, float]) -> float:
    """Above the bend of the back (omphalion), of upper and middle trunk together."""
    upper, middle = _MASS["upper_trunk"][sex], _MASS["middle_trunk"][sex]
    upper_at = long["middle_trunk"] + (1 - _CENTRE["upper_trunk"][sex]) * long["upper_trunk"]
    middle_at = (1 - _CENTRE["middle_trunk"][sex]) * long["middle_trunk"]
    return (upper * upper_at + middle * middle_at) / (upper + middle)


def _centres(sex: int, long: Mapping[str, float]) -> dict[str, float]:
    made = {
        key: _CENTRE[key][sex] * long[key]
        for key in ("upper_arm", "forearm", "thigh", "shank", "foot")
    }
    made["hand"] = _CENTRE["hand"][sex] * long["knuckles"]
    made["head"] = (1 - _CENTRE["head"][sex]) * long["head"]  # above C7
    made["pelvis"] = (1 - _CENTRE["pelvis"][sex]) * long["pelvis"]  # above the hips
    made["chest"] = _chest_centre(sex, long)
    return made


def mass_shares() -> dict[str, float]:
    """Share of body mass of each part; head, trunk and both limbs of each kind make 1.

    The women's column adds up to 0.9999 in print, so the mean is divided by its sum.
    """
    shares = {key: _mean(pair) for key, pair in _MASS.items()}
    whole = sum(share * (2 if key in PAIRED else 1) for key, share in shares.items())
    return {key: share / whole for key, share in shares.items()}


def sizes(person: Person) -> Sizes:
    """The parts of this person's body."""
    shares = mass_shares()
    mass = {key: share * person.mass_kg for key, share in shares.items()}
    mass["chest"] = mass.pop("upper_trunk") + mass.pop("middle_trunk")
    both = [_lengths(sex, person.height_m) for sex in (0, 1)]
    centres = [_centres(sex, both[sex]) for sex in (0, 1)]
    return Sizes(
        mass,
        {key: _mean((both[0][key], both[1][key])) for key in both[0]},
        {key: _mean((centres[0][key], centres[1][key])) for key in centres[0]},
    )
