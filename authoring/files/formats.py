"""The file formats: which noun each holds, and how versions are told apart.

Format history (what each version changed; every past version is still read):

* 1: first version. It freezes when the first release is made.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import ApprovedVersion, LibraryFile
from authoring.model.pack import PackManifest
from authoring.model.patient import Presentation
from authoring.model.plan import Plan
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.review import Review

FORMAT_VERSION = 1
"""Version that is written. Older ones are read, newer ones are refused."""

Document: TypeAlias = (
    Card
    | Protocol
    | Clinic
    | LibraryFile
    | ApprovedVersion
    | Presentation
    | Plan
    | Review
    | Pose
    | PackManifest
)
"""A noun that is a file of its own."""

_EVERY: tuple[type[Document], ...] = (
    Card,
    Protocol,
    Clinic,
    LibraryFile,
    ApprovedVersion,
    Presentation,
    Plan,
    Review,
    Pose,
    PackManifest,
)

DOCUMENTS: Mapping[str, type[Document]] = {cls.FORMAT: cls for cls in _EVERY}
"""Document classes by the value of ``format``."""


def migrate(data: dict[str, Any], version: int) -> dict[str, Any]:
    """Data of an older format version as data of the present one.

    Version 1 is the first, so nothing needs to change yet; each later version adds its
    step here and a frozen sample of the version before it among the tests.
    """
    if version != FORMAT_VERSION:
        raise ValueError(f"no step leads from format version {version} to {FORMAT_VERSION}")
    return data
