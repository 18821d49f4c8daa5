"""A library to work on, and the commands as a user types them."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import frozen

from authoring import resources
from authoring.cli import main

EXAMPLE = resources.examples() / "larkfield"
ANKLE = Path("protocols", "lateral-ankle-sprain-back-to-running.protocol.json")
CARD = Path("cards", "heel-raise.card.json")


@frozen
class Answer:
    """How a command ended: exit status, standard output, standard error."""

    status: int
    out: str
    err: str


Run = Callable[..., Answer]


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """A copy of the example clinic's library."""
    return Path(shutil.copytree(EXAMPLE, tmp_path / "library"))


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command in this process."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    def go(*arguments: object) -> Answer:
        capfd.readouterr()
        try:
            status = main([str(argument) for argument in arguments])
        except SystemExit as ended:
            status = int(ended.code or 0)
        out, err = capfd.readouterr()
        return Answer(status, out, err)

    return go


def typed(*arguments: object, **facts: Any) -> subprocess.CompletedProcess[str]:
    """Run a command in a process of its own, as a user does."""
    command = [sys.executable, "-m", "authoring", *map(str, arguments)]
    settings = {"capture_output": True, "text": True, "timeout": 60, **facts}
    return subprocess.run(command, check=False, **settings)


def told(answer: Answer) -> str:
    """The one message on standard error; there is no traceback, and nothing on standard output."""
    assert answer.out == ""
    assert answer.err.startswith("rungbook: ")
    assert "Traceback" not in answer.err
    assert answer.err.count("rungbook: ") == 1
    return answer.err.removeprefix("rungbook: ").strip()
