"""Read a written HTML handout back the way a person hears it: text in the order of the document.

Standard library only, and nothing of the writer: a second opinion on what the page says.
"""

from __future__ import annotations

from collections.abc import Mapping
from html.parser import HTMLParser

from attrs import Factory, define, frozen

VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "path"})
INLINE = frozenset({"a", "bdi", "strong"})
UNREAD = frozenset({"script", "style", "title"})


@frozen
class Element:
    """A start tag as it stands in the file."""

    tag: str
    attributes: Mapping[str, str]


@define
class Page:
    """What was read; ``words`` leaves out the repeated lines, which are in ``furniture``."""

    words: list[str] = Factory(list)
    furniture: list[str] = Factory(list)
    alts: list[str] = Factory(list)
    headings: list[tuple[int, str]] = Factory(list)
    elements: list[Element] = Factory(list)
    title: str = ""
    style: str = ""
    script: str = ""

    def of(self, tag: str) -> list[Element]:
        """The elements of one name."""
        return [element for element in self.elements if element.tag == tag]


def read(html: bytes) -> Page:
    """The page in ``html``; a tag left open or closed twice is an AssertionError."""
    reader = _Reader()
    reader.feed(html.decode("utf-8"))
    reader.close()
    assert not reader.open, f"left open: {reader.open}"
    page = reader.page
    page.words = "".join(reader.text).split()
    page.furniture = [" ".join(text.split()) for text in reader.furniture]
    page.headings = [(level, " ".join(text.split())) for level, text in page.headings]
    return page


def tokens(texts: tuple[str, ...]) -> list[str]:
    """The single words of several texts, for comparison with :attr:`Page.words`."""
    return " ".join(texts).split()


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.page = Page()
        self.text: list[str] = []
        self.furniture: list[str] = []
        self.open: list[Element] = []
        self.counters: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.page.elements.append(element)
        self._break(element)
        if tag == "img":
            self.page.alts.append(element.attributes["alt"])
        if tag in VOID:
            return
        self.open.append(element)
        if tag == "ol":
            self.counters.append(0)
        elif tag == "li" and self._numbered():
            self.counters[-1] += 1
            self.text.append(f" {self.counters[-1]} ")
        elif len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.page.headings.append((int(tag[1]), ""))
        elif self._is_furniture(element):
            self.furniture.append("")

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:
            return
        assert self.open, f"</{tag}> closes nothing"
        element = self.open.pop()
        assert element.tag == tag, f"</{tag}> closes <{element.tag}>"
        if tag == "ol":
            self.counters.pop()
        self._break(element)

    def handle_data(self, data: str) -> None:
        tags = {element.tag for element in self.open}
        if "title" in tags:
            self.page.title += data
        elif "style" in tags:
            self.page.style += data
        elif "script" in tags:
            self.page.script += data
        elif any(self._is_furniture(element) for element in self.open):
            self.furniture[-1] += data
        else:
            self.text.append(data)
            if self.page.headings and any(tag in tags for tag in ("h1", "h2", "h3", "h4", "h5")):
                level, text = self.page.headings[-1]
                self.page.headings[-1] = (level, text + data)

    def _break(self, element: Element) -> None:
        """Blocks part words, inline elements don't."""
        if element.tag not in INLINE and element.tag != "span":
            self.text.append(" ")

    def _numbered(self) -> bool:
        """Whether the item just opened shows a counted number.

        The tree's words count the steps of an exercise, and not the lists of running text.
        """
        parent = self.open[-2]
        return parent.tag == "ol" and parent.attributes.get("class") == "steps"

    @staticmethod
    def _is_furniture(element: Element) -> bool:
        return element.tag == "footer" or element.attributes.get("class") == "draft"
