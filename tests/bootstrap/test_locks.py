"""The locks name every requirement once, with hashes and without an address."""

import json
import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from authoring.bootstrap.environment import ROOT, RUNTIME_LOCK, TEST_LOCK
from authoring.bootstrap.judges import FILES, MANIFEST

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LOCKS = [RUNTIME_LOCK, TEST_LOCK]
ADDRESS = re.compile(r"https?:|file:|git\+|--(extra-)?index-url|--find-links|\s@\s")


def entries(lock: Path) -> dict[str, tuple[Requirement, str]]:
    """Name to requirement and the whole entry, in pip's own requirements syntax."""
    text = lock.read_text(encoding="utf-8").replace("\\\n", " ")
    parsed = [
        (Requirement(line.split("--hash")[0].strip()), line)
        for line in text.splitlines()
        if line.strip() and not line.startswith("#")
    ]
    return {canonicalize_name(each.name): (each, line) for each, line in parsed}


def asked(lock: Path) -> list[Requirement]:
    lines = list(PROJECT["dependencies"])
    if lock == TEST_LOCK:
        lines += PROJECT["optional-dependencies"]["dev"]
    return [Requirement(line) for line in lines]


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_a_lock_holds_what_the_project_asks_in_a_version_it_accepts(lock: Path) -> None:
    held = entries(lock)
    for wish in asked(lock):
        (pin,) = held[canonicalize_name(wish.name)][0].specifier
        assert pin.operator == "=="
        assert wish.specifier.contains(pin.version), wish


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_each_pin_has_a_sha256_and_no_address(lock: Path) -> None:
    for name, (_, line) in entries(lock).items():
        assert re.search(r"--hash=sha256:[0-9a-f]{64}\b", line), name
    assert not ADDRESS.search(lock.read_text(encoding="utf-8"))


def test_the_tests_run_the_versions_that_the_program_ships_with() -> None:
    test = entries(TEST_LOCK)
    for name, (pin, _) in entries(RUNTIME_LOCK).items():
        assert test[name][0].specifier == pin.specifier, name


def test_qt_is_the_release_that_keeps_count_of_its_references() -> None:
    assert str(entries(RUNTIME_LOCK)["pyside6"][0].specifier) == "==6.11.3"


def test_the_npm_lock_has_a_hash_for_each_package_and_no_address() -> None:
    text = (MANIFEST / FILES[1]).read_text(encoding="utf-8")
    packages = {name: each for name, each in json.loads(text)["packages"].items() if name}
    assert packages
    assert all(each["integrity"].startswith("sha512-") for each in packages.values())
    assert "resolved" not in text
    assert not ADDRESS.search(text)


def test_the_npm_manifest_asks_for_exact_versions_that_the_lock_holds() -> None:
    manifest = json.loads((MANIFEST / FILES[0]).read_text(encoding="utf-8"))
    lock = json.loads((MANIFEST / FILES[1]).read_text(encoding="utf-8"))["packages"]
    wishes = {**manifest["dependencies"], **manifest["optionalDependencies"]}
    assert {name: lock[f"node_modules/{name}"]["version"] for name in wishes} == wishes
