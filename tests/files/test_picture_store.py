"""Pictures kept between runs: there again, never damaged, never in the way."""

from pathlib import Path

import pytest

from authoring.files import picture_store as module
from authoring.files.picture_store import PictureStore, cache_folder

KEY = "ab" + "0" * 62


def test_what_is_kept_is_there_for_the_next_program(tmp_path: Path) -> None:
    PictureStore(tmp_path)[KEY] = b"picture"
    assert PictureStore(tmp_path)[KEY] == b"picture"


def test_a_damaged_file_counts_as_none(tmp_path: Path) -> None:
    PictureStore(tmp_path)[KEY] = b"picture"
    file = tmp_path / "ab" / KEY
    file.write_bytes(file.read_bytes()[:-1] + b"x")
    with pytest.raises(KeyError):
        PictureStore(tmp_path)[KEY]


def test_a_key_that_is_no_hash_reaches_no_file(tmp_path: Path) -> None:
    store = PictureStore(tmp_path / "cache")
    assert store.get("../secret") is None
    with pytest.raises(KeyError):
        store["../secret"] = b"x"


def test_a_folder_that_cannot_be_made_leaves_pictures_in_memory(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    store = PictureStore(tmp_path / "file" / "below")
    store[KEY] = b"picture"
    assert store[KEY] == b"picture"


def test_memory_and_disk_are_bounded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_KEPT", 3)
    monkeypatch.setattr(module, "MOST_FILES", 5)
    store = PictureStore(tmp_path)
    for number in range(201):
        store[f"{number:064x}"] = b"x"
    assert len(store) == 3
    assert len(list(tmp_path.glob("??/*"))) <= 5


def test_the_folder_is_the_one_that_the_system_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """XDG Base Directory Specification 0.8: relative paths are to be ignored."""
    monkeypatch.setattr(module.sys, "platform", "linux")
    monkeypatch.delenv("RUNGBOOK_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert cache_folder() == tmp_path / "rungbook"
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert cache_folder() == Path.home() / ".cache" / "rungbook"
