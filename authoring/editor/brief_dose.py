"""Doses for places with little room."""

from __future__ import annotations

import re

_HOLD = re.compile(r"\b(s|min) hold\b")


def without_hold(words: str) -> str:
    """A written dose without the word that its seconds, and the mark beside it, say already."""
    return _HOLD.sub(r"\1", words)
