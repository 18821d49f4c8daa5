"""A pack: one file that takes protocols, and all they need, to another clinic."""

from __future__ import annotations

from typing import ClassVar

from authoring.model.base import LANGUAGE_TAG, UUID, Node, fact, many, node
from authoring.model.library import Term

SHA256 = r"^[0-9a-f]{64}$"

MEMBER_NAME = (
    r"^((cards|protocols|poses)/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\.(card|protocol|pose)"
    r"\.json|images/[0-9a-f]{64}\.(png|jpg))$"
)
"""A card, protocol or pose by its id, or a picture by the SHA-256 of its bytes."""


@node
class PackMember(Node):
    """One file in a pack."""

    name: str = fact("Its name in the pack.", pattern=MEMBER_NAME, longest=120)
    sha256: str = fact("SHA-256 of its bytes (FIPS 180-4).", pattern=SHA256)
    size: int = fact("Its bytes.", low=0, high=16 * 1024 * 1024)


@node
class PackManifest(Node):
    """``manifest.json`` of a pack: what is in it, from whom and under which licence.

    A pack is a zip file whose first member is the manifest; ``signature.json`` may follow it,
    then come the members that it lists, in its order. Nothing else is in a pack, and never a
    plan, a presentation or a clinic.
    """

    FORMAT: ClassVar[str] = "rungbook/pack"

    origin: str = fact("The clinic that made it.", fewest=1, longest=200)
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    protocols: tuple[str, ...] = fact("Ids of its protocols.", pattern=UUID, fewest=1, longest=200)
    licences: tuple[str, ...] = many("Licences of what is in it.", longest=200)
    attribution: tuple[str, ...] = many("Who wrote and looks after what is in it.", longest=500)
    terms: tuple[Term, ...] = many("Every term it uses.", longest=5000)
    members: tuple[PackMember, ...] = many("Files in order.", longest=2000)
    invented: bool = fact("Whether this is an invented sample.", default=False)
