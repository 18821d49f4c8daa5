"""Put a pose into the card that is being written, with words for each of its moments."""

from __future__ import annotations

from authoring.editor.i18n import tr
from authoring.editor.session import Session
from authoring.figures.alt_text import suggested_alt
from authoring.figures.wants import PoseError
from authoring.model.card import Card, Picture, Variant
from authoring.model.edits.ladder import first_variant
from authoring.model.edits.variants import add_picture
from authoring.model.pose import Pose
from authoring.model.text import Text


def target(session: Session) -> tuple[Card, Variant] | None:
    """The card and variant that the workshop shows, or None."""
    card = session.card
    if card is None or not card.variants:
        return None
    chosen = session.selection
    wanted = chosen.ids[0] if chosen.kind == "variant" and chosen.ids else ""
    return card, card.variant(wanted) or first_variant(card)


def pictures_of(pose: Pose, language: str) -> tuple[Picture, ...]:
    """One picture a moment, each with the words suggested for it.

    Words are suggested in English only; a card in another language gets none.

    Raises:
        PoseError: the pose can't be drawn.
    """
    last = pose.phases[-1].phase
    return tuple(
        Picture(
            pose=pose.slug,
            phase=each.phase,
            alt=Text.plain(
                suggested_alt(pose, None if each.phase is last else each.phase)
                if language.startswith("en")
                else ""
            ),
        )
        for each in pose.phases
    )


def put_into_card(session: Session, pose: Pose) -> bool:
    """Add the pose's pictures to the variant that the workshop shows."""
    found = target(session)
    if found is None:
        session.tell(tr("Choose a card with a variant first: pictures belong to one."))
        return False
    card, variant = found
    try:
        pictures = pictures_of(pose, card.language)
    except PoseError as error:
        session.tell(str(error))
        return False

    def change(now: Card) -> Card:
        for picture in pictures:
            now = add_picture(now, variant=variant.id, picture=picture).value
        return now

    if not session.document.edit_card(tr("Add a drawn pose"), card.id, change):
        return False
    name = variant.name.best(card.language, card.language)
    words = tr("The pose is in the card now, with “{variant}”.", variant=name)
    session.tell(words, tr("Undo"), session.document.undo)
    return True
