"""Nothing in the program opens a network connection: watched from outside, by the kernel's calls.

``strace`` follows the process and all its children and reports every call of the network class
(strace(1), ``-e trace=network``). Unix sockets never leave the machine; any other family does.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from authoring import resources
from tests.tools import strace

EXAMPLE = resources.examples() / "larkfield"
ANKLE = EXAMPLE / "protocols" / "lateral-ankle-sprain-back-to-running.protocol.json"
LOCAL = re.compile(r"\bAF_(UNIX|LOCAL|UNSPEC)\b")
FAMILY = re.compile(r"\b(?:AF|PF)_[A-Z0-9]+\b")


def families(record: str) -> set[str]:
    """Address families in a record of calls."""
    return set(FAMILY.findall(record))


def watched(tmp_path: Path, *command: object) -> tuple[subprocess.CompletedProcess[str], str]:
    """A command run under watch, and the record of its network calls."""
    record = tmp_path / "calls"
    watcher = [str(strace()), "-f", "-qq", "-e", "trace=network", "-o", str(record)]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path)}
    done = subprocess.run(
        [*watcher, sys.executable, *map(str, command)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env=environment,
    )
    return done, record.read_text(encoding="utf-8", errors="replace")


COMMANDS = {
    "new": ("-m", "authoring", "new", "{tmp}/clinic", "--example"),
    "check": ("-m", "authoring", "check", EXAMPLE),
    "docx": ("-m", "authoring", "handout", ANKLE, "--stage", 1, "-o", "{tmp}/x.docx"),
    "html": ("-m", "authoring", "handout", ANKLE, "--stage", 1, "-o", "{tmp}/x.html"),
    "pdf": ("-m", "authoring", "handout", ANKLE, "--stage", 1, "-o", "{tmp}/x.pdf"),
    "the editor's modules": ("-c", "import authoring.editor.app"),
}


@pytest.mark.parametrize("name", COMMANDS)
def test_nothing_opens_a_connection(name: str, tmp_path: Path) -> None:
    command = [str(part).replace("{tmp}", str(tmp_path)) for part in COMMANDS[name]]
    done, record = watched(tmp_path, *command)
    assert (done.returncode, done.stderr) == (0, "")
    assert not [family for family in families(record) if not LOCAL.search(family)], record


@pytest.mark.parametrize("family", ["AF_INET", "AF_INET6"])
def test_the_watcher_sees_a_connection_where_there_is_one(family: str, tmp_path: Path) -> None:
    program = f"import socket; socket.socket(socket.{family}).close()"
    done, record = watched(tmp_path, "-c", program)
    assert done.returncode == 0
    assert family in families(record)
