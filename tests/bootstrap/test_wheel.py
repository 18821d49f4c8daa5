"""The built wheel carries what the checkout has, and works where there is no checkout."""

import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from authoring.bootstrap.environment import RUNTIME_LOCK

ROOT = Path(__file__).resolve().parents[2]
DATA = ("schemas", "templates", "stock_illustrations", "examples")


def run(*command: str | Path, folder: Path) -> str:
    """What the command prints; the test fails with its stderr if it does."""
    # Nothing of the checkout may be found by way of the environment.
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [str(word) for word in command],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        timeout=900,
    )
    assert done.returncode == 0, done.stderr + done.stdout
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    backend = "import sys; from hatchling.build import build_wheel; build_wheel(sys.argv[1])"
    run(sys.executable, "-c", backend, folder, folder=ROOT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def unpacked(wheel: Path) -> Path:
    folder = wheel.parent / "unpacked"
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def tracked(folder: str) -> set[str]:
    listed = run("git", "ls-files", "-z", "--", folder, folder=ROOT)
    return {name for name in listed.split("\0") if name}


@pytest.mark.parametrize("folder", DATA)
def test_the_wheel_carries_each_data_file_unchanged(folder: str, unpacked: Path) -> None:
    names = tracked(folder)
    assert names
    for name in names:
        packed = unpacked / "authoring" / "_data" / name
        assert packed.read_bytes() == (ROOT / name).read_bytes(), name


def test_the_wheel_carries_the_licences_of_program_fonts_and_dictionary(unpacked: Path) -> None:
    (licences,) = unpacked.glob("*.dist-info/licenses")
    texts = sorted(path.name for path in licences.rglob("*") if path.is_file())
    fonts = ["AtkinsonHyperlegibleNext-OFL.txt", "NotoSans-OFL.txt"]
    assert texts == sorted(["LICENSE", "en-GB.LICENSE.txt", *fonts])


def test_the_wheel_carries_no_test_and_no_scratch_file(unpacked: Path) -> None:
    tops = {path.name for path in unpacked.iterdir() if not path.name.endswith(".dist-info")}
    assert tops == {"authoring"}
    assert not list(unpacked.rglob("*.pyc"))


@pytest.mark.parametrize("name", ["schemas", "templates", "fonts", "examples"])
def test_an_installed_copy_finds_its_own_data(name: str, unpacked: Path) -> None:
    program = (
        f"import sys; sys.path.insert(0, {str(unpacked)!r}); "
        f"from authoring import resources; print(resources.{name}())"
    )
    found = Path(run(sys.executable, "-I", "-c", program, folder=unpacked).strip())
    assert found.is_relative_to(unpacked / "authoring" / "_data")
    assert any(found.iterdir())


@pytest.mark.long
def test_the_wheel_prints_a_handout_in_a_clean_environment(wheel: Path, tmp_path: Path) -> None:
    home = tmp_path / "environment"
    venv.create(home, with_pip=True)
    programs = home / ("Scripts" if os.name == "nt" else "bin")
    pip = [programs / "python", "-m", "pip", "install", "--quiet", "--no-deps"]
    run(*pip, "--require-hashes", "-r", RUNTIME_LOCK, folder=tmp_path)
    run(*pip, wheel, folder=tmp_path)
    rungbook = programs / "rungbook"
    library = tmp_path / "library"
    run(rungbook, "new", library, "--example", folder=tmp_path)
    run(rungbook, "check", library, folder=tmp_path)
    protocol = sorted(library.glob("**/*.protocol.json"))[0]
    for suffix, start in (("pdf", b"%PDF-"), ("docx", b"PK"), ("html", b"<!doctype html>")):
        file = tmp_path / f"handout.{suffix}"
        run(rungbook, "handout", protocol, "-o", file, folder=tmp_path)
        assert file.read_bytes()[:15].lower().startswith(start.lower())
