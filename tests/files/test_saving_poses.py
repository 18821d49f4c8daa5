"""A library's own poses are written, found again and taken away like every other file."""

from pathlib import Path

from authoring.files.library import create_library, open_library
from authoring.files.poses import stock_poses
from authoring.files.saving import SaveJob, changed_nouns, removed_ids, save
from authoring.model.base import evolve
from authoring.model.library import LibraryFile

LIBRARY = LibraryFile(
    id="00000000-0000-4000-8000-000000000001", name="Invented library", language="en"
)


def test_a_pose_is_saved_and_read_again_and_a_removed_one_is_gone(tmp_path: Path) -> None:
    folder = tmp_path / "clinic"
    create_library(folder, [LIBRARY], {})
    opened = open_library(folder)
    pose = stock_poses()["bridge"]
    before = opened.library
    after = evolve(before, poses={pose.id: pose})
    assert changed_nouns(before, after) == (pose,)
    written = save(SaveJob(opened, before, after, {}))
    assert (folder / "poses" / "bridge.pose.json").is_file()
    assert open_library(folder).library.poses == {pose.id: pose}
    gone = evolve(after, poses={})
    assert removed_ids(after, gone) == (pose.id,)
    save(SaveJob(written.opened, after, gone, {}))
    assert open_library(folder).library.poses == {}
