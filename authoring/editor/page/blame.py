"""Where a page that can't be made is mended, read from what the page maker said. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Iterator

from attrs import frozen

from authoring.checks.result import Subject
from authoring.checks.walk import walk
from authoring.editor.page.wish import PageJob
from authoring.editor.place import Place
from authoring.model.base import Node
from authoring.model.card import Picture
from authoring.model.clinic import Logo
from authoring.model.library import Library
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.text import Text

_EXERCISE = re.compile(r"Exercise (\d+) ")
_IMAGE = re.compile(r"[0-9a-f]{64}\.(?:png|jpg)")
_POSE = re.compile(r"The pose ([a-z0-9-]+) ")
_CARD = re.compile(r"the card '([a-z0-9-]+)'")
_QUOTED = re.compile(r"“(.+?)”", re.DOTALL)
_FEWEST = 4
"""Shorter words stand in too many places to blame one."""


@frozen
class _File:
    """A file that has a part in the page."""

    subject: Subject
    subject_id: str
    noun: Node

    def at(self, path: str) -> Place:
        return Place(self.subject, self.subject_id, path)


def place_of(job: PageJob, sentence: str) -> Place | None:
    """The place that a sentence of the page maker is about, None where it names none."""
    found = _EXERCISE.match(sentence)
    if found:
        return _entry_place(job, int(found.group(1)))
    files = list(_files(job))
    picture = _IMAGE.search(sentence)
    if picture:
        return _picture_place(files, picture.group())
    pose = _POSE.match(sentence)
    if pose:
        return _picture_place(files, pose.group(1))
    if "font" in sentence and "choose another font" in sentence:
        return Place(Subject.CLINIC, "", "brand.font")
    quoted = sorted(_QUOTED.findall(sentence), key=len, reverse=True)
    texts = (place for words in quoted if (place := _text_place(files, words)) is not None)
    own = bool(quoted) or sentence.startswith(("This protocol", "The card"))
    return next(texts, job.place if own else None)


def place_of_card(library: Library, sentence: str) -> Place | None:
    """The card that a reason names ("the card 'squat' was changed"), None where it names none."""
    found = _CARD.search(sentence)
    slug = found.group(1) if found else ""
    ids = (card.id for card in library.cards.values() if card.slug == slug)
    return next((Place(Subject.CARD, card_id) for card_id in ids), None)


def _files(job: PageJob) -> Iterator[_File]:
    document = job.document
    if isinstance(document, Plan):
        yield from (_File(Subject.CARD, card.id, card) for card in document.cards)
    elif document is not None:
        yield _File(job.wish.subject, document.id, document)
    if isinstance(document, Protocol):
        for card_id in dict.fromkeys(entry.card for entry in document.entries()):
            card = job.library.cards.get(card_id)
            if card is not None:
                yield _File(Subject.CARD, card_id, card)
    if job.library.clinic is not None:
        yield _File(Subject.CLINIC, "", job.library.clinic)


def _entry_place(job: PageJob, number: int) -> Place | None:
    document = job.document
    if not isinstance(document, Protocol):
        return job.place
    numbers = document.numbers()
    for s, stage in enumerate(document.stages):
        for b, block in enumerate(stage.blocks):
            for e, entry in enumerate(block.entries):
                if numbers[entry.id] == number:
                    path = f"stages[{s}].blocks[{b}].entries[{e}]"
                    return Place(Subject.PROTOCOL, document.id, path)
    return job.place


def _picture_place(files: list[_File], name: str) -> Place | None:
    for file in files:
        seen = walk(file.noun)
        places = [(path, {one.image, one.pose}) for path, one in seen.nodes(Picture)]
        places += [(path, {logo.image}) for path, logo in seen.nodes(Logo)]
        for path, names in places:
            if name in names:
                return file.at(path)
    return None


def _text_place(files: list[_File], words: str) -> Place | None:
    """The text that is printed as these words; else one that they hold, or that holds them."""
    wanted = words.strip()
    texts = [(file, placed) for file in files for placed in walk(file.noun).texts]
    for fits in (_is, _holds, _is_held):
        for file, placed in texts:
            if fits(placed.text, wanted):
                return file.at(placed.path)
    return None


def _is(text: Text, words: str) -> bool:
    return any(value.strip() == words for value in text.values.values())


def _holds(text: Text, words: str) -> bool:
    return any(words in value for value in text.values.values())


def _is_held(text: Text, words: str) -> bool:
    values = (value.strip() for value in text.values.values())
    return any(len(value) >= _FEWEST and value in words for value in values)
