"""The sheet being written: paragraphs, lists and links added to the body or to a table cell."""

from __future__ import annotations

import re
from collections.abc import Sequence

from attrs import evolve
from docx.document import Document as WordDocument
from docx.opc.constants import RELATIONSHIP_TYPE
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import BrandStyle, Direction, HandoutDocument, Line, Span
from authoring.handout.docx_format import ParagraphFormat, element, paragraph_properties, switch
from authoring.handout.docx_marks import clear_mark
from authoring.handout.docx_measures import Measures
from authoring.handout.docx_numbering import restart
from authoring.handout.docx_pictures import Pictures
from authoring.handout.docx_styles import PLAIN
from authoring.handout.docx_text import text_run
from authoring.handout.errors import HandoutError

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_SAFE_ADDRESS = re.compile(r"(https?://|mailto:|tel:)", re.IGNORECASE)


class Sheet:
    """Writes into one Word document.

    Attributes:
        body: ``w:body``, the parent of everything at the top level.
        rtl: the handout reads from right to left.
    """

    def __init__(self, word: WordDocument, document: HandoutDocument, measures: Measures) -> None:
        self.body: BaseOxmlElement = word.element.body
        self.brand: BrandStyle = document.brand
        self.measures = measures
        self.rtl = document.direction is Direction.RTL
        self.pictures = Pictures(word.part)
        self._part = word.part
        self._numbering: BaseOxmlElement = word.part.numbering_part.element
        self._has_section = False

    # ---- runs

    def run(self, text: str, style: str | None = None) -> BaseOxmlElement:
        """Text as one run; ``style`` is the id of a character style."""
        return text_run(text, rtl=self.rtl, style=style)

    @staticmethod
    def tab() -> BaseOxmlElement:
        """A jump to the next tab stop."""
        return element("r", element("tab"))

    def space(self) -> BaseOxmlElement:
        """A space between two runs."""
        return text_run(" ", rtl=self.rtl)

    def line(self, line: Line) -> list[BaseOxmlElement]:
        """The runs of one line of spans."""
        return [self._span(span) for span in line]

    def _span(self, span: Span) -> BaseOxmlElement:
        style = "Strong" if span.strong else None
        if span.href is None:
            return self.run(span.text, style)
        if not _SAFE_ADDRESS.match(span.href):
            raise HandoutError(
                f"The link “{span.text}” leads to “{span.href}”; "
                "use a web address, a mail address or a telephone number."
            )
        relation = self._part.relate_to(span.href, RELATIONSHIP_TYPE.HYPERLINK, is_external=True)
        link = element("hyperlink", self.run(span.text, "Hyperlink"))
        link.set(f"{_R}id", relation)
        return link

    # ---- paragraphs

    def paragraph(
        self,
        parent: BaseOxmlElement,
        style: str,
        runs: Sequence[BaseOxmlElement] | str,
        look: ParagraphFormat = PLAIN,
    ) -> BaseOxmlElement:
        """Append one paragraph; ``look`` says where it differs from its style."""
        content = [self.run(runs)] if isinstance(runs, str) else runs
        own = evolve(look, style=style, bidi=True if self.rtl else None)
        made = element("p", paragraph_properties(own), *content)
        parent.append(made)
        return made

    def optional(self, parent: BaseOxmlElement, style: str, text: str) -> None:
        """Append a paragraph unless ``text`` is empty."""
        if text.strip():
            self.paragraph(parent, style, text)

    def items(
        self,
        parent: BaseOxmlElement,
        style: str,
        lines: Sequence[Line],
        number: int,
        look: ParagraphFormat = PLAIN,
    ) -> None:
        """Append list items that belong to the list ``number``."""
        for line in lines:
            self.paragraph(parent, style, self.line(line), evolve(look, number=number))

    def new_list(self) -> int:
        """A numbered list that starts at 1; its number."""
        return restart(self._numbering)

    def gap(
        self, parent: BaseOxmlElement, height_pt: float | None = None, *, keep: bool = True
    ) -> None:
        """A thin line without words, where Word needs a paragraph after a table."""
        mark = self.pictures.mark(clear_mark(), (1, 1))
        look = ParagraphFormat(exact_pt=height_pt, keep_next=None if keep else False)
        self.paragraph(parent, "Gap", [mark], look)

    def close_tables(self, parent: BaseOxmlElement, height_pt: float | None = None) -> None:
        """Make sure that what was added last is no table: two in a row would grow together."""
        if len(parent) and parent[-1].tag == f"{_W}tbl":
            self.gap(parent, height_pt)

    # ---- what belongs together

    @property
    def mark(self) -> int:
        """Where the body ends now; :meth:`hold_together` takes it as the start."""
        return len(self.body)

    def hold_together(self, start: int) -> None:
        """Keep all that was added to the body since ``start`` on one page, where it fits."""
        blocks = list(self.body[start:])
        for block in blocks:
            for paragraph in block.iter(f"{_W}p"):
                _set(paragraph, "keepLines")
        for block in blocks[:-1]:
            for paragraph in block.iter(f"{_W}p"):
                _set(paragraph, "keepNext")
        if blocks and blocks[-1].tag == f"{_W}tbl":
            for row in blocks[-1].findall(f"{_W}tr")[:-1]:
                for paragraph in row.iter(f"{_W}p"):
                    _set(paragraph, "keepNext")

    def end_section(self, properties: BaseOxmlElement) -> None:
        """End a section (of columns) with the last paragraph of the body."""
        self.close_tables(self.body, 2)
        self.body[-1].find(f"{_W}pPr").append(properties)
        self._has_section = True

    @property
    def has_section(self) -> bool:
        """Whether a section was ended already."""
        return self._has_section


def _set(paragraph: BaseOxmlElement, tag: str) -> None:
    """Switch on ``keepNext`` or ``keepLines`` at its place in ``w:pPr``."""
    properties = paragraph.find(f"{_W}pPr")
    if properties is None or properties.find(f"{_W}{tag}") is not None:
        return
    after = [f"{_W}pStyle"] + ([f"{_W}keepNext"] if tag == "keepLines" else [])
    place = sum(1 for child in properties if child.tag in after)
    properties.insert(place, switch(tag, on=True))
