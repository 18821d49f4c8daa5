"""Poses by the name that cards use: the library's own first, else those of the program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from immutabledict import immutabledict

from authoring import resources
from authoring.files.documents import read_document
from authoring.model.library import Library
from authoring.model.pose import Pose


@cache
def stock_poses() -> Mapping[str, Pose]:
    """The poses that come with the program, by slug.

    Raises:
        FileProblem: one of them is damaged.
        ResourceMissingError: the folder is not there.
    """
    found: dict[str, Pose] = {}
    for path in sorted(resources.stock_illustrations().glob("*.pose.json")):
        document = read_document(path, Pose).document
        if isinstance(document, Pose):
            found[document.slug] = document
    return immutabledict(found)


class StockPoses(Mapping[str, Pose]):
    """The poses that come with the program, read when one is first asked for.

    They are part of every library's value; most work on a library needs none of them.
    """

    def __getitem__(self, slug: str) -> Pose:
        return stock_poses()[slug]

    def __iter__(self) -> Iterator[str]:
        return iter(stock_poses())

    def __len__(self) -> int:
        return len(stock_poses())


def poses_of(library: Library) -> Mapping[str, Pose]:
    """Every pose that a card of this library may name, by slug."""
    return {**stock_poses(), **{pose.slug: pose for pose in library.poses.values()}}
