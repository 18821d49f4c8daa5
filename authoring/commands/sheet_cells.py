"""What stands on a contact sheet: every picture of a library and every stock pose, by region."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

from attrs import field, frozen

from authoring.commands.outcome import Tell, silent
from authoring.figures.angles import Key
from authoring.figures.contacts import PoseError
from authoring.figures.drawing import Drawing, draw
from authoring.figures.look import PLAIN, Look
from authoring.figures.looks import look_of
from authoring.figures.solver import settle
from authoring.files.library import open_library, read_images
from authoring.files.poses import poses_of
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.pose import Pose
from authoring.model.vocabulary import Joint, Region

HEADINGS: Final[Mapping[str, frozenset[Region]]] = {
    "Ankle and foot": frozenset({Region.FOOT_ANKLE, Region.LOWER_LEG}),
    "Knee and thigh": frozenset({Region.KNEE, Region.THIGH}),
    "Hip": frozenset({Region.HIP, Region.PELVIS}),
    "Back and trunk": frozenset({Region.LOWER_BACK, Region.UPPER_BACK, Region.TRUNK}),
    "Neck": frozenset({Region.NECK}),
    "Shoulder": frozenset({Region.SHOULDER, Region.UPPER_ARM}),
    "Elbow, forearm and hand": frozenset({Region.ELBOW, Region.FOREARM, Region.WRIST_HAND}),
    "Whole body, and positions held": frozenset({Region.WHOLE_BODY}),
}

_REGIONS: Final[Mapping[Joint, Region]] = {
    Joint.ANKLE: Region.FOOT_ANKLE,
    Joint.TOES: Region.FOOT_ANKLE,
    Joint.KNEE: Region.KNEE,
    Joint.HIP: Region.HIP,
    Joint.LOWER_BACK: Region.LOWER_BACK,
    Joint.UPPER_BACK: Region.UPPER_BACK,
    Joint.NECK: Region.NECK,
    Joint.SHOULDER_BLADE: Region.SHOULDER,
    Joint.SHOULDER: Region.SHOULDER,
    Joint.ELBOW: Region.ELBOW,
    Joint.FOREARM: Region.FOREARM,
    Joint.WRIST: Region.WRIST_HAND,
    Joint.FINGERS: Region.WRIST_HAND,
}


@frozen
class Photo:
    """A picture that the library keeps as a file: its bytes, PNG or JPEG."""

    data: bytes


@frozen
class Cell:
    """One pose, or one photo, with where it is used.

    Attributes:
        title: what it shows.
        slug: the name cards call it by.
        uses: titles of the cards that show it, in the library's order.
        pictures: its moments in order, or the photo.
        origin: "library" for the library's own, else "stock".
    """

    title: str
    slug: str
    uses: tuple[str, ...]
    pictures: tuple[Drawing | Photo, ...]
    origin: str = "stock"


@frozen
class Sheet:
    """Cells by heading, in the order of the body from the foot up; headings without any left out.

    Attributes:
        refused: a sentence for each pose that can't be drawn.
    """

    name: str
    groups: Mapping[str, tuple[Cell, ...]]
    refused: tuple[str, ...] = field(default=())

    @property
    def cells(self) -> tuple[Cell, ...]:
        """All cells, by heading."""
        return tuple(cell for group in self.groups.values() for cell in group)


def sheet_of(folder: Path, tell: Tell = silent) -> Sheet:
    """Every picture of a library and every stock pose, under the region it is for.

    Raises:
        FileProblem: the library can't be read.
    """
    library = open_library(folder).library
    poses = poses_of(library)
    found: dict[str, list[Cell]] = {heading: [] for heading in HEADINGS}
    refused = []
    for done, (slug, pose) in enumerate(sorted(poses.items()), 1):
        tell("Drawing", done, len(poses))
        cards = tuple(_showing(library, pose=slug))
        try:
            pictures = _moments(pose, _look(library, pose))
            region = _region(pose, cards)
        except PoseError as error:
            refused.append(f"{slug}: {error}")
            continue
        origin = "library" if slug in {each.slug for each in library.poses.values()} else "stock"
        cell = Cell(pose.title.best("en", pose.language), slug, _titles(cards), pictures, origin)
        found[_heading(region)].append(cell)
    for name, data in sorted(read_images(folder, _photos(library)).items()):
        cards = tuple(_showing(library, image=name))
        region = cards[0].regions[0] if cards[0].regions else Region.WHOLE_BODY
        cell = Cell("Photo", name[:12], _titles(cards), (Photo(data),), "library")
        found[_heading(region)].append(cell)
    groups = {heading: tuple(cells) for heading, cells in found.items() if cells}
    return Sheet(library.manifest.name, groups, tuple(refused))


def _region(pose: Pose, cards: tuple[Card, ...]) -> Region:
    """The first that the pose names, else that of the first card that shows it, else a guess."""
    named = (pose.regions, *(each.regions for each in cards[:1]))
    return next((regions[0] for regions in named if regions), None) or region_of(pose)


def region_of(pose: Pose) -> Region:
    """The region of the joint that turns farthest between the moments of a pose.

    Back and neck count more, as they turn less than limbs (design choice). Whole body
    where it has one moment, or where hardly anything turns.

    Raises:
        PoseError: a contact can't be reached.
    """
    moments = [settle(pose, each).angles for each in pose.phases]
    turned: dict[Key, float] = {}
    for key in {key for angles in moments for key in angles}:
        degrees = [angles.get(key, 0.0) for angles in moments]
        weight = _WEIGHTS.get(key[0], 1.0)
        turned[key] = weight * (max(degrees) - min(degrees))
    most = max(sorted(turned), key=turned.__getitem__, default=None)
    if most is None or turned[most] < _STILL_DEG:
        return Region.WHOLE_BODY
    return _REGIONS[most[0]]


_STILL_DEG: Final = 5.0
_WEIGHTS: Final = {Joint.LOWER_BACK: 4.0, Joint.UPPER_BACK: 4.0, Joint.NECK: 3.0}


def _moments(pose: Pose, look: Look) -> tuple[Drawing, ...]:
    return tuple(draw(pose, each.phase, look) for each in pose.phases)


def _look(library: Library, pose: Pose) -> Look:
    """The person that the clinic's handouts show."""
    clinic = library.clinic
    return PLAIN if clinic is None else look_of(clinic.figure, clinic.brand.colour, pose.slug)


def _showing(library: Library, *, pose: str = "", image: str = "") -> Iterator[Card]:
    for card in library.cards.values():
        shown_there = {
            (each.pose or "", each.image or "")
            for variant in card.variants
            for each in variant.pictures
        }
        if (pose, image) in shown_there:
            yield card


def _photos(library: Library) -> set[str]:
    return {
        each.image
        for card in library.cards.values()
        for variant in card.variants
        for each in variant.pictures
        if each.image in library.images
    } - {None}


def _titles(cards: tuple[Card, ...]) -> tuple[str, ...]:
    return tuple(card.title.best("en", card.language) for card in cards)


def _heading(region: Region) -> str:
    return next(heading for heading, regions in HEADINGS.items() if region in regions)
