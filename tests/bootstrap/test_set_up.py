"""The set-up does its work once, does it again after a change, and says what stops it."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from authoring.bootstrap import command, environment, judges, report, start, system
from authoring.bootstrap.told import SetUpError, run


@pytest.fixture
def lock(tmp_path: Path) -> Path:
    """A lock that asks for nothing, so that no registry is needed."""
    path = tmp_path / "requirements.lock"
    path.write_text("", encoding="utf-8")
    return path


def test_a_second_run_installs_nothing(
    lock: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    home = tmp_path / "a folder" / ".venv"
    first = environment.prepare(lock, venv=home)
    told = capfd.readouterr().err
    assert "Making the environment" in told
    assert "Installing the 0 packages" in told
    assert environment.prepare(lock, venv=home) == first
    assert capfd.readouterr().err == ""
    lock.write_text("# changed\n", encoding="utf-8")
    environment.prepare(lock, venv=home)
    told = capfd.readouterr().err
    assert "Installing the 0 packages" in told
    assert "Making" not in told


def test_the_environment_finds_the_program_from_any_folder(lock: Path, tmp_path: Path) -> None:
    python = environment.prepare(lock, venv=tmp_path / ".venv")
    question = "import authoring; print(authoring.__file__)"
    answer = subprocess.run(
        [str(python), "-c", question], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert Path(answer.stdout.strip()) == environment.ROOT / "authoring" / "__init__.py"
    assert os.access(python.with_name("rungbook"), os.X_OK)


def test_a_broken_environment_is_made_anew(lock: Path, tmp_path: Path) -> None:
    home = tmp_path / ".venv"
    python = environment.prepare(lock, venv=home)
    python.unlink()
    python.write_text("not a program", encoding="utf-8")
    assert environment.is_usable(home) is False
    environment.prepare(lock, venv=home)
    assert environment.is_usable(home) is True


def test_a_package_that_differs_from_its_hash_is_refused(
    lock: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    wheel = tmp_path / "thing-1.0-py3-none-any.whl"
    wheel.write_bytes(b"not what was locked")
    lock.write_text(f"thing @ {wheel.as_uri()} --hash=sha256:{'0' * 64}\n", encoding="utf-8")
    with pytest.raises(SetUpError, match="could not be installed"):
        environment.prepare(lock, venv=tmp_path / ".venv")
    assert "HASH" in capfd.readouterr().err.upper()
    assert environment.stamps(tmp_path / ".venv") == {}


@pytest.mark.parametrize("text", ["", "[]", "{", '"x"', "\x00"])
def test_an_unreadable_stamp_counts_as_none(text: str, tmp_path: Path) -> None:
    (tmp_path / "rungbook-stamps.json").write_text(text, encoding="utf-8")
    assert environment.stamps(tmp_path) == {}


def test_a_python_without_ensurepip_is_told_which_package_to_install(
    lock: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = environment.importlib.util.find_spec
    monkeypatch.setattr(
        environment.importlib.util,
        "find_spec",
        lambda name: None if name == "ensurepip" else found(name),
    )
    monkeypatch.setattr(system, "is_debian", lambda: True)
    monkeypatch.setattr(system, "is_root", lambda: False)
    release = f"{sys.version_info.major}.{sys.version_info.minor}"
    line = f"sudo apt-get install -y python{release}-venv"
    with pytest.raises(SetUpError, match=line):
        environment.prepare(lock, venv=tmp_path / ".venv")


def test_a_missing_library_is_named_and_a_present_one_is_not() -> None:
    assert system.missing_libraries(["libc.so.6", "libnosuchthing.so.9"]) == ["libnosuchthing.so.9"]


def test_a_person_without_rights_gets_the_exact_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(system, "is_debian", lambda: True)
    monkeypatch.setattr(system, "is_root", lambda: False)
    monkeypatch.setattr(system, "can_load", lambda name: name != "libEGL.so.1")
    assert system.provide_qt_libraries() is False
    told = capsys.readouterr().err
    assert told == "Missing for the editor's windows. Run: sudo apt-get install -y libegl1\n"


def test_npm_missing_is_said_and_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert judges.install(tmp_path) is False
    assert "npm is missing" in capsys.readouterr().err


def test_handouts_for_a_folder_that_cannot_be_made_are_refused_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("", encoding="utf-8")
    monkeypatch.setattr(start, "example_protocols", lambda: [Path("x.protocol.json")])
    with pytest.raises(SetUpError, match="cannot be made"):
        start.write_handouts(Path(sys.executable), in_the_way / "handouts")


def test_a_set_up_that_fails_ends_with_status_2_and_one_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fails(lock: Path) -> Path:
        raise SetUpError("The disk is full. Free some space and run this again.")

    monkeypatch.setattr(environment, "prepare", fails)
    assert command.main([]) == 2
    assert capsys.readouterr().err == "The disk is full. Free some space and run this again.\n"


def test_a_program_that_is_not_there_is_a_status_not_a_traceback(tmp_path: Path) -> None:
    assert run([tmp_path / "nothing"], folder=tmp_path) == 127


def test_an_old_python_is_refused_before_newer_syntax_is_read() -> None:
    program = (
        "import sys; sys.version_info = (3, 9, 2); sys.argv = ['x']; "
        "import runpy; runpy.run_module('authoring.bootstrap', run_name='__main__')"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        cwd=environment.ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stderr.startswith("Rungbook needs Python 3.11 or newer and this is 3.9.")


def test_the_report_counts_cases_and_marks_a_limit_that_is_broken(tmp_path: Path) -> None:
    record, timed = tmp_path / "tests.json", tmp_path / "benchmarks.json"
    record.write_text(
        '[{"test": "a", "outcome": "passed", "cases": 1000000, "seconds": 2.5},'
        ' {"test": "b", "outcome": "failed", "cases": 0, "seconds": 0.1}]',
        encoding="utf-8",
    )
    timed.write_text(
        '{"benchmarks": [{"fullname": "slow", "stats": {"median": 0.2},'
        ' "extra_info": {"limit_s": 0.1}}]}',
        encoding="utf-8",
    )
    written, broken = report.write(tmp_path / "reports", {"seed": "7"}, record, timed)
    text = written.read_text(encoding="utf-8")
    assert broken is True
    assert "1 failed, 1 passed; 1,000,000 generated cases." in text
    assert "- seed: 7" in text
    assert "| slow | 200.0 | 100.0 | too slow |" in text


@pytest.mark.parametrize("number", [3, 25])
def test_generated_cases_are_counted_for_the_record(number: int, tmp_path: Path) -> None:
    source = (
        "from hypothesis import given, settings, strategies as st\n"
        f"@settings(max_examples={number})\n"
        "@given(st.floats(0, 1))\n"
        "def test_it(x): assert x <= 1\n"
    )
    (tmp_path / "test_it.py").write_text(source, encoding="utf-8")
    conftest = environment.ROOT / "tests" / "conftest.py"
    (tmp_path / "conftest.py").write_text(conftest.read_text(encoding="utf-8"), encoding="utf-8")
    record = tmp_path / "record.json"
    subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-n", "2", "-p", "no:cacheprovider", "test_it.py"],
        cwd=tmp_path,
        env={**os.environ, "RUNGBOOK_RECORD": str(record)},
        capture_output=True,
        check=True,
    )
    (told,) = json.loads(record.read_text(encoding="utf-8"))
    assert (told["outcome"], told["cases"]) == ("passed", number)
