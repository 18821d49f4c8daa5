"""Edits of a :class:`Text` in one language. No Qt here."""

from __future__ import annotations

from authoring.model.text import OWN, Text


def words_in(text: Text | None, language: str, own: str) -> str:
    """The words in exactly this language; "" where there are none.

    Args:
        language: tag, "" for the file's own language.
        own: tag of the file's own language.
    """
    if text is None:
        return ""
    wanted = language or own
    by_tag = {(own if tag == OWN else tag): words for tag, words in text.values.items()}
    return by_tag.get(wanted, "")


def with_words(text: Text | None, language: str, own: str, words: str) -> Text | None:
    """The text with other words in one language; None where no words are left in any.

    A text in the file's own language alone stays a plain string.

    Raises:
        ModelError: the words can't stand in a text.
    """
    wanted = language or own
    by_tag = {(own if tag == OWN else tag): w for tag, w in text.values.items()} if text else {}
    if words:
        by_tag[wanted] = words
    else:
        by_tag.pop(wanted, None)
    if not by_tag:
        return None
    if set(by_tag) == {own} and (text is None or OWN in text.values or len(text.values) > 1):
        return Text.plain(by_tag[own])
    return Text(by_tag)


def languages_of(text: Text | None, own: str) -> tuple[str, ...]:
    """Tags of the languages a text has words in, the file's own first."""
    if text is None:
        return ()
    tags = {own if tag == OWN else tag for tag, words in text.values.items() if words}
    return tuple(sorted(tags, key=lambda tag: (tag != own, tag)))
