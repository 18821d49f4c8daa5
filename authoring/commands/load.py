"""``rungbook load``: what each variant of a card asks of the body, for clinicians."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit
from authoring.commands.source import library_of
from authoring.files.documents import read_document
from authoring.files.errors import shown
from authoring.files.library import open_library
from authoring.files.poses import poses_of, stock_poses
from authoring.mechanics.ladder import LadderLoad, ladder_load
from authoring.mechanics.segments import Person
from authoring.model.card import Card

MASS_KG: Final = (20.0, 350.0)
HEIGHT_CM: Final = (90.0, 230.0)


@frozen
class CardLoad:
    """A card, its ladder by load, and whose body that is."""

    card: Card
    ladder: LadderLoad
    person: Person


def load_of(path: Path, mass_kg: float, height_cm: float) -> CardLoad:
    """The load of every variant of a card.

    Args:
        path: the card. Poses are those of the library it lies in, else the program's own.

    Raises:
        FileProblem: the card or its library can't be used.
        CommandError: it is no card, or nobody has such a body.
    """
    _refuse("mass", "kg", mass_kg, MASS_KG)
    _refuse("height", "cm", height_cm, HEIGHT_CM)
    card = read_document(path).document
    if not isinstance(card, Card):
        raise CommandError(
            f"{shown(path)}: a load is estimated for a card, and this is a {card.FORMAT} file; "
            "name a card.",
            Exit.UNUSABLE,
        )
    folder = library_of(path)
    poses = stock_poses() if folder is None else poses_of(open_library(folder).library)
    person = Person(mass_kg, height_cm)
    return CardLoad(card, ladder_load(card, poses, person), person)


def _refuse(name: str, unit: str, value: float, limits: tuple[float, float]) -> None:
    low, high = limits
    if not low <= value <= high:  # not a number is refused too
        raise CommandError(
            f"The {name} must be {low:g} to {high:g} {unit}, and is {value:g}; give another.",
            Exit.UNUSABLE,
        )
