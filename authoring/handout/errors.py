"""What a writer raises when a handout can't be written."""

from __future__ import annotations


class HandoutError(Exception):
    """One sentence for the user: what can't be written, where, and how to mend it."""
