"""A reusable exercise: its purpose, its ladder of variants, its cautions."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import (
    IMAGE_NAME,
    LANGUAGE_TAG,
    ModelError,
    Node,
    fact,
    many,
    node,
    optional,
    slug,
    slugs,
    uuid,
)
from authoring.model.caution import Caution
from authoring.model.dose import AngleLimit, Dose
from authoring.model.sentence import say
from authoring.model.sources import Reference, Source
from authoring.model.text import Text
from authoring.model.vocabulary import LimbUse, Mode, Phase, Region, SupportKind


@node
class Picture(Node):
    """A picture of a variant: a photo in the library, or a pose it is drawn from."""

    image: str | None = optional("File in the library's images folder.", pattern=IMAGE_NAME)
    pose: str | None = slug("Pose in the library's poses folder.", default=None, points_to="pose")
    alt: Text = fact("What a person who can't see it needs to know.")
    phase: Phase = fact("Moment of the movement.", default=Phase.START)

    def __attrs_post_init__(self) -> None:
        if (self.image is None) == (self.pose is None):
            raise ModelError("image", say("A picture has an image or a pose, exactly one of them."))


@node
class KitNeed(Node):
    """A piece of kit that a variant needs."""

    kit: str = slug("The kit.", term="kit")
    count: int = fact("How many.", default=1, low=1, high=20)
    size: float | None = optional("Size, in the unit of the kit's steps.", low=0, high=1000)
    unit: str = fact("Unit of size (cm, kg).", default="", longest=10)
    spare: bool = fact("Whether it can be done without.", default=False)


@node
class Support(Node):
    """A support or helper, and how many hands it takes."""

    kind: SupportKind = fact("What or who supports.")
    hands: int = fact("Hands that hold on.", default=0, low=0, high=2)


@node
class LimbRoles(Node):
    """Which limbs carry each half of the movement (up on both, down on one)."""

    lifting: LimbUse = fact("Limbs that lift or go out.", default=LimbUse.BOTH)
    lowering: LimbUse = fact("Limbs that lower or go back.", default=LimbUse.BOTH)


@node
class HoldDetail(Node):
    """What an isometric variant stands in for, and how it is held."""

    stands_in_for: tuple[str, ...] = slugs("The variants it stands in for.", points_to="variant")
    at: AngleLimit | None = optional("Where in the range, by angle.")
    where: Text | None = optional("Where in the range, in words.")
    against: Text | None = optional("What it is held against.")


@node
class Variant(Node):
    """One way to do the exercise, on one rung of the ladder."""

    id: str = slug("Id, unique in the file.")
    rung: int = fact(
        "0 as the card is named, -1, -2 … regressions, 1, 2 … progressions.", low=-20, high=20
    )
    name: Text = fact("Name of this way to do it.")
    mode: Mode = fact("Kind of work.")
    position: str | None = slug("Body position.", default=None, term="position")
    equipment: tuple[KitNeed, ...] = many("Kit; empty means none.", longest=20)
    supports: tuple[Support, ...] = many("Supports and helpers.", longest=8)
    limbs: LimbRoles | None = optional("Roles of the limbs, where they differ.")
    start: Text | None = optional("Start position, one sentence.")
    steps: tuple[Text, ...] = many("Steps in order, one action each.", longest=20)
    cues: tuple[Text, ...] = many("Short cues.", longest=12)
    breathing: Text | None = optional("How to breathe.")
    in_short: Text | None = optional(
        "The change from its neighbour in one sentence, for 'If it hurts' and 'If it feels easy'."
    )
    demands: tuple[str, ...] = slugs("What it asks of the body.", term="demand")
    cautions: tuple[Caution, ...] = many("Cautions of this variant.", longest=40)
    dose: Dose | None = optional("Its own dose.")
    hold: HoldDetail | None = optional("For an isometric variant: what it stands in for.")
    pictures: tuple[Picture, ...] = many("Pictures in order.", longest=8)
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class ForbiddenSetUp(Node):
    """A set-up that must not be used, and why."""

    id: str = slug("Id, unique in the file.")
    set_up: Text = fact("What must not be done.")
    why: Text = fact("Why.")
    variants: tuple[str, ...] = slugs("Variants it concerns; empty means all.", points_to="variant")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class Card(Node):
    """One exercise, reusable in any protocol."""

    FORMAT: ClassVar[str] = "rungbook/card"

    id: str = uuid("Id of the file.")
    slug: str = slug("Short name; the file is called after it.")
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    title: Text = fact("Name of the exercise, in the patient's words.")
    trade_name: Text | None = optional("What a clinician calls it.")
    purpose: Text | None = optional("What it is for, one line in the patient's words.")
    purposes: tuple[str, ...] = slugs(
        "Purposes as terms; cards of the same purpose can stand in for each other.", term="purpose"
    )
    regions: tuple[Region, ...] = many("Parts of the body it is for.", longest=16)
    movements: tuple[str, ...] = slugs("Movements it trains.", term="movement")
    faults: tuple[Text, ...] = many("Common faults.", longest=20)
    variants: tuple[Variant, ...] = many("The ladder.", longest=60)
    cautions: tuple[Caution, ...] = many("Cautions of every variant.", longest=40)
    forbidden: tuple[ForbiddenSetUp, ...] = many("Set-ups that must not be used.", longest=20)
    references: tuple[Reference, ...] = many("Publications.", longest=60)
    owner: str = fact("Who looks after the card.", default="", longest=200)
    authors: tuple[str, ...] = many("Who wrote it.", longest=40)
    last_review: dt.date | None = optional("Day of the last review.")
    review_due: dt.date | None = optional("Day the next review is due.")
    licence: str = fact("Licence of the text and pictures.", default="", longest=200)
    invented: bool = fact("Whether this is an invented sample.", default=False)

    def variant(self, variant_id: str) -> Variant | None:
        """The variant with this id, or None."""
        return next((variant for variant in self.variants if variant.id == variant_id), None)
