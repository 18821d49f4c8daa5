"""Pure edits of the clinic's own words. No Qt here."""

from __future__ import annotations

from authoring.editor.library_edits import with_manifest
from authoring.model.base import evolve
from authoring.model.library import Library


def with_clinic_word(library: Library, word: str) -> Library:
    """The library whose spelling check accepts a word; its words stay sorted."""
    words = library.manifest.clinic_words
    if word.casefold() in (known.casefold() for known in words):
        return library
    kept = tuple(sorted((*words, word), key=str.casefold))
    return with_manifest(library, evolve(library.manifest, clinic_words=kept))


def without_clinic_word(library: Library, word: str) -> Library:
    """The library whose spelling check accepts a word no more."""
    kept = tuple(known for known in library.manifest.clinic_words if known != word)
    return with_manifest(library, evolve(library.manifest, clinic_words=kept))
