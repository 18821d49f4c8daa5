"""What wording a sheet needs beside the sheet: phrases, clinic, terms, pictures."""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping
from io import BytesIO

from attrs import field, frozen
from immutabledict import immutabledict
from PIL import Image

from authoring.dosage.phrases import Phrases
from authoring.dosage.words import DoseWords
from authoring.figures.cache import size_of, stored_svg
from authoring.figures.contacts import PoseError
from authoring.figures.looks import look_of
from authoring.figures.mirror import for_side
from authoring.handout.document import Picture
from authoring.handout.errors import HandoutError
from authoring.handout.sheet import Item
from authoring.model import card as cards
from authoring.model.clinic import Clinic
from authoring.model.library import Term
from authoring.model.pose import Pose
from authoring.model.text import Text
from authoring.model.vocabulary import Phase, Region, Side, TermKind

_ARM = {Region.SHOULDER, Region.UPPER_ARM, Region.ELBOW, Region.FOREARM, Region.WRIST_HAND}
_LEG = {Region.FOOT_ANKLE, Region.LOWER_LEG, Region.KNEE, Region.THIGH, Region.HIP}

_MEDIA = {"PNG": "image/png", "JPEG": "image/jpeg"}


@frozen
class Context:
    """Everything that turns values into words.

    Attributes:
        phrases: catalogue of the handout's language.
        own: language of plain strings of the sheet's protocol, plan or card.
        clinic: the clinic whose page it is.
        terms: terms by kind and id.
        images: bytes of pictures by file name.
        poses: poses by slug.
        drawn: a store of drawings by what they are made of; the caller's.
        person: what decides who the drawings show where the clinic leaves it open; "" is
            each pose for itself.
    """

    phrases: Phrases
    own: str
    clinic: Clinic
    terms: Mapping[tuple[TermKind, str], Term]
    images: Mapping[str, bytes]
    poses: Mapping[str, Pose] = field(factory=immutabledict)
    drawn: MutableMapping[str, bytes] = field(factory=dict, eq=False, repr=False)
    person: str = ""

    def say(self, key: str, /, **places: object) -> str:
        """A phrase of the catalogue."""
        return self.phrases.say(key, **places)

    def text(self, text: Text | None, own: str | None = None) -> str:
        """Words of a text, "" for none; ``own`` is the language of the file it stands in."""
        if text is None:
            return ""
        return text.best(self.phrases.language, own or self.own).strip()

    def clinic_text(self, text: Text | None) -> str:
        """Words of a text in the clinic's file."""
        return self.text(text, self.clinic.language)

    def term(self, kind: TermKind, term_id: str) -> str:
        """What a patient calls a term; its id in words where the library lacks it."""
        term = self.terms.get((kind, term_id))
        if term is None:
            return term_id.replace("-", " ")
        return self.text(term.patient_name or term.name)

    def dose_words(self, item: Item, own: str) -> DoseWords:
        """Words for a dose that stands in a file of language ``own``."""
        side = item.side.value if item.side in (Side.LEFT, Side.RIGHT) else ""
        names = {each.id: self.text(each.name, item.card.language) for each in item.card.variants}
        return DoseWords(self.phrases, own, limb_of(item.card), side, names)

    def picture(
        self, picture: cards.Picture, own: str, *, side: Side = Side.NONE, only: bool = False
    ) -> Picture:
        """A picture of a variant.

        Args:
            picture: what the card says.
            own: language of the card.
            side: side that works; a drawing is turned to it.
            only: whether the variant has no other picture.

        Raises:
            HandoutError: the file or pose is missing, damaged, or can't be drawn.
        """
        # A picture of its own is neither a start nor a hold: a walk drawn in one moment moves on.
        plain = only and picture.phase in (Phase.START, Phase.HOLD)
        word = "" if plain else picture.phase.value
        caption = self.say(f"exercise.{word}") if word else ""
        alt = self.text(picture.alt, own)
        if picture.image is not None:
            return read_picture(self.images, picture.image, alt, caption)
        return self._drawn(picture, alt, caption, side)

    def _drawn(self, picture: cards.Picture, alt: str, caption: str, side: Side) -> Picture:
        pose = self.poses.get(picture.pose or "")
        if pose is None:
            raise HandoutError(
                f"The pose {picture.pose} is neither in the poses folder nor among those that "
                "come with Rungbook; add it, or take the picture out."
            )
        choice = self.clinic.figure
        look = look_of(choice, self.clinic.brand.colour, self.person or pose.slug)
        marked = side if choice.mark_side else Side.NONE
        try:
            svg = stored_svg(self.drawn, for_side(pose, side), picture.phase, look, marked)
        except PoseError as error:
            raise HandoutError(str(error)) from error
        return Picture(svg, "image/svg+xml", alt, caption, *size_of(svg))


def limb_of(card: cards.Card) -> str:
    """What a side of this exercise is called: "leg", "arm" or "body"."""
    regions = set(card.regions)
    if regions and regions <= _ARM:
        return "arm"
    if regions and regions <= _LEG | {Region.PELVIS}:
        return "leg"
    return "body"


def read_picture(images: Mapping[str, bytes], name: str, alt: str, caption: str) -> Picture:
    """A picture of the library for the page.

    Raises:
        HandoutError: the file is missing, or no PNG or JPEG.
    """
    data = images.get(name)
    if data is None:
        raise HandoutError(
            f"The picture {name} is not in the images folder; add it, or take it out."
        )
    try:
        with Image.open(BytesIO(data)) as image:
            media = _MEDIA[image.format or ""]
            width, height = image.size
            image.verify()
    except (OSError, KeyError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise HandoutError(
            f"The picture {name} is damaged, too large, or neither PNG nor JPEG; replace it."
        ) from error
    return Picture(data, media, alt, caption, width, height)
