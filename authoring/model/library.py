"""The library: its terms, and everything in its folder as one value."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

import attrs
from immutabledict import immutabledict

from authoring.model.base import LANGUAGE_TAG, Node, fact, many, node, optional, slug, slugs, uuid
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.pose import Pose
from authoring.model.protocol import Approval, Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind, WeightBearing


@node
class Code(Node):
    """A code in a coding system that the user names; none is shipped."""

    system: str = fact("Address of the coding system.", longest=200)
    code: str = fact("Code.", longest=80)
    display: str = fact("Its words.", default="", longest=400)


@node
class Term(Node):
    """A condition, demand, position, kit, movement, measure or purpose with an id."""

    id: str = slug("Id, unique among terms of its kind.")
    kind: TermKind = fact("What it names.")
    name: Text = fact("Name.")
    patient_name: Text | None = optional("Name on a handout, where it differs ('a low step').")
    also: tuple[str, ...] = many("Look-alikes that mean the same.", longest=60)
    broader: str | None = slug("A wider term of the same kind.", default=None, points_to="term")
    needs_caution: bool = fact(
        "For a demand: whether a variant that makes it needs a caution.", default=False
    )
    side_lying: bool = fact(
        "For a demand or position: whether it loads the side that is lain on.", default=False
    )
    leg_weight: WeightBearing | None = optional(
        "For a position or demand: weight that the affected leg must be allowed to take."
    )
    arm_weight: WeightBearing | None = optional(
        "For a position or demand: weight that the affected arm must be allowed to take."
    )
    demands: tuple[str, ...] = slugs("For a measure: what testing it asks for.", term="demand")
    movements: tuple[str, ...] = slugs("For a measure: movements that train it.", term="movement")
    codes: tuple[Code, ...] = many("Codes.", longest=20)


@node
class LibraryFile(Node):
    """``library.json``: the library's name, language and terms."""

    FORMAT: ClassVar[str] = "rungbook/library"

    id: str = uuid("Id of the library.")
    name: str = fact("Name.", longest=200)
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    terms: tuple[Term, ...] = many("Terms.", longest=5000)
    clinic_words: tuple[str, ...] = many("Words the spelling check accepts.", longest=5000)
    invented: bool = fact("Whether this is an invented sample.", default=False)

    def term(self, kind: TermKind, term_id: str) -> Term | None:
        """The term of this kind with this id, or None."""
        return next((t for t in self.terms if t.kind is kind and t.id == term_id), None)


@node
class ApprovedVersion(Node):
    """An approved version with all it needs, so that it reprints unchanged without the library."""

    FORMAT: ClassVar[str] = "rungbook/approved"

    protocol: Protocol = fact("The protocol as approved.")
    cards: tuple[Card, ...] = many("Every card it uses, as approved.", longest=500)
    terms: tuple[Term, ...] = many("Every term it uses.", longest=5000)
    approval: Approval = fact("Who approved it, when.")
    poses: tuple[Pose, ...] = many("Every pose its pictures show, as approved.", longest=500)
    images: tuple[str, ...] = many("Names of the pictures it uses.", longest=5000)


@attrs.frozen(kw_only=True)
class Library:
    """Everything in a library folder that could be read, by id.

    No noun of the file format: a value that the checks, the handout and the editor
    work on. ``images`` holds the names of the files in the images folder, ``stock_poses``
    the poses that come with the program, by slug: no part of the folder, so they count in no
    comparison. ``kept`` tells the approved versions that the history keeps, by id and version;
    None where nobody looked.
    """

    manifest: LibraryFile
    clinic: Clinic | None = None
    cards: Mapping[str, Card] = attrs.field(factory=immutabledict, converter=immutabledict)
    protocols: Mapping[str, Protocol] = attrs.field(factory=immutabledict, converter=immutabledict)
    poses: Mapping[str, Pose] = attrs.field(factory=immutabledict, converter=immutabledict)
    images: frozenset[str] = frozenset()
    stock_poses: Mapping[str, Pose] = attrs.field(factory=immutabledict, repr=False, eq=False)
    kept: frozenset[tuple[str, str]] | None = attrs.field(default=None, repr=False, eq=False)

    def pose_called(self, slug: str) -> Pose | None:
        """The pose that pictures call so, the library's own before the program's; or None."""
        own = (pose for pose in self.poses.values() if pose.slug == slug)
        return next(own, None) or self.stock_poses.get(slug)
