"""CommonMark from a library file as paragraphs and lists; nothing else gets through.

Raw HTML stays literal text, pictures become their alternative text, and a link keeps
its address only where that is a web, mail or telephone address.
"""

from __future__ import annotations

from collections.abc import Sequence

from markdown_it import MarkdownIt
from markdown_it.token import Token

from authoring.handout.document import Bullets, Line, Numbered, Paragraph, Rich, RichBlock, Span

_SAFE = ("http://", "https://", "mailto:", "tel:")
_PARSER = MarkdownIt("commonmark", {"html": False})


def rich(text: str) -> Rich:
    """The blocks of a CommonMark text. Headings become strong paragraphs."""
    return tuple(_blocks(_PARSER.parse(text)))


def plain(text: str) -> Rich:
    """One paragraph of literal text."""
    return (Paragraph((Span(text),)),) if text.strip() else ()


def _blocks(tokens: Sequence[Token]) -> list[RichBlock]:
    found: list[RichBlock] = []
    items: list[list[Line]] = []
    ordered: list[bool] = []
    strong = False
    for token in tokens:
        if token.type in ("bullet_list_open", "ordered_list_open"):
            if not items:
                items.append([])
                ordered.append(token.type == "ordered_list_open")
            else:  # a list inside a list is read as one list
                items.append(items[-1])
                ordered.append(ordered[-1])
        elif token.type in ("bullet_list_close", "ordered_list_close"):
            done = items.pop()
            kind = ordered.pop()
            if not items and done:
                found.append(Numbered(tuple(done)) if kind else Bullets(tuple(done)))
        elif token.type in ("heading_open", "heading_close"):
            strong = token.type == "heading_open"
        elif token.type == "inline":
            line = _line(token.children or [], strong=strong)
            if line and items:
                items[-1].append(line)
            elif line:
                found.append(Paragraph(line))
        elif token.type in ("code_block", "fence", "html_block") and token.content.strip():
            found.append(Paragraph((Span(token.content.strip()),)))
    return found


def _line(tokens: Sequence[Token], *, strong: bool) -> Line:
    spans: list[Span] = []
    depth = 1 if strong else 0
    href: str | None = None
    for token in tokens:
        if token.type == "strong_open":
            depth += 1
        elif token.type == "strong_close":
            depth -= 1
        elif token.type == "link_open":
            address = str(token.attrGet("href") or "")
            href = address if address.lower().startswith(_SAFE) else None
        elif token.type == "link_close":
            href = None
        else:
            text = " " if token.type in ("softbreak", "hardbreak") else token.content
            if text:
                spans.append(Span(text, strong=depth > 0, href=href))
    return tuple(_joined(spans))


def _joined(spans: list[Span]) -> list[Span]:
    """Neighbours of one look as one span."""
    joined: list[Span] = []
    for span in spans:
        last = joined[-1] if joined else None
        if last is not None and (last.strong, last.href) == (span.strong, span.href):
            joined[-1] = Span(last.text + span.text, span.strong, span.href)
        else:
            joined.append(span)
    return joined
