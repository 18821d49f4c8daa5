"""Where a statement comes from."""

from __future__ import annotations

from authoring.model.base import DOI, Node, fact, node, optional, slug
from authoring.model.text import Text
from authoring.model.vocabulary import Basis, ReferenceKind


@node
class Reference(Node):
    """A publication that a file leans on."""

    id: str = slug("Id, unique in the file.")
    citation: str = fact(
        "Authors, title, journal or publisher, year, pages.", fewest=1, longest=600
    )
    year: int | None = optional("Year of publication.", low=1800, high=2200)
    doi: str | None = optional("Digital object identifier.", pattern=DOI, longest=200)
    kind: ReferenceKind = fact("Kind of publication.", default=ReferenceKind.STUDY)
    note: str = fact("What it is used for here, or what is uncertain.", default="", longest=2000)


@node
class Source(Node):
    """What one statement rests on."""

    basis: Basis = fact("Published, common practice, a local protocol or an expert's opinion.")
    reference: str | None = slug(
        "The publication, where it is published.", default=None, points_to="reference"
    )
    place: str = fact("Table, page or item in it.", default="", longest=200)
    disagrees: Text | None = optional("What other sources say, where they disagree.")
