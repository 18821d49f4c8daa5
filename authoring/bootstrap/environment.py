"""The virtual environment in `.venv`, filled from a lock and stamped by that lock's hash."""

import hashlib
import importlib.util
import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

from authoring.bootstrap import system
from authoring.bootstrap.told import SetUpError, run, say

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
LOCKS = Path(__file__).resolve().parent
RUNTIME_LOCK = LOCKS / "requirements.lock"
TEST_LOCK = LOCKS / "requirements-test.lock"


def interpreter(venv: Path = VENV) -> Path:
    """The environment's own Python."""
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def stamp_of(lock: Path) -> str:
    """SHA-256 of the lock's bytes and the Python release that it was installed for."""
    release = f"{sys.version_info.major}.{sys.version_info.minor}"
    return hashlib.sha256(lock.read_bytes() + release.encode()).hexdigest()


def stamps(venv: Path) -> dict[str, str]:
    """Stamps of the locks that `venv` was filled from, by lock name; empty if unreadable."""
    try:
        read = json.loads((venv / "rungbook-stamps.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(name): str(value) for name, value in read.items()} if type(read) is dict else {}


def _write_stamps(venv: Path, values: dict[str, str]) -> None:
    path = venv / "rungbook-stamps.json"
    path.write_text(json.dumps(values, indent=2, sort_keys=True), encoding="utf-8")


def is_usable(venv: Path) -> bool:
    """Whether the environment's Python starts and is of the release that runs this."""
    command = [str(interpreter(venv)), "-c", "import sys, pip; print(*sys.version_info[:2])"]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.stdout.split() == [str(part) for part in sys.version_info[:2]]


def _require_venv_module() -> None:
    """Debian ships `venv` and `ensurepip` apart from Python: get them, or say how."""
    if importlib.util.find_spec("ensurepip") and importlib.util.find_spec("venv"):
        return
    package = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    if system.is_debian():
        if system.is_root() and system.provide([package], "to make the environment"):
            importlib.invalidate_caches()
            if importlib.util.find_spec("ensurepip"):
                return
        raise SetUpError(
            f"This Python cannot make an environment: its ensurepip module is missing. "
            f"Run: {system.install_line([package])} and then this command again."
        )
    raise SetUpError(
        "This Python cannot make an environment: its venv or ensurepip module is missing. "
        "Install your system's python3-venv package, or a Python from python.org, "
        "and run this command again."
    )


def _make(venv: Path) -> None:
    _require_venv_module()
    say(f"Making the environment in {venv}.")
    if run([sys.executable, "-m", "venv", "--clear", venv], folder=ROOT):
        raise SetUpError(
            f"The environment in {venv} could not be made; the lines above say why. "
            "Check that the folder can be written to and has a gigabyte free, and run this again."
        )


def _fill(venv: Path, lock: Path) -> None:
    packages = sum("==" in line for line in lock.read_text(encoding="utf-8").splitlines())
    say(f"Installing the {packages} packages of {lock.name}; the first time takes some minutes.")
    quiet = [] if sys.stderr.isatty() else ["--quiet"]
    command = [str(interpreter(venv)), "-m", "pip", "install", "--require-hashes", "--no-deps"]
    command += ["--disable-pip-version-check", *quiet, "-r", str(lock)]
    # A user's own pip settings may ask for --user, which an environment refuses.
    environment = {**os.environ, "PIP_USER": "0"}
    if run(command, folder=ROOT, environment=environment):
        raise SetUpError(
            "The packages could not be installed; pip's lines above say why. "
            "Check the network connection and run this command again."
        )


def _add_program(venv: Path) -> None:
    """Let the environment find this checkout, and give it the `rungbook` command."""
    question = "import sysconfig; print(sysconfig.get_path('purelib'))"
    answer = subprocess.run(
        [str(interpreter(venv)), "-c", question], capture_output=True, text=True, check=True
    )
    Path(answer.stdout.strip(), "rungbook.pth").write_text(f"{ROOT}\n", encoding="utf-8")
    if os.name == "nt":
        return
    command = interpreter(venv).with_name("rungbook")
    start = f'exec {shlex.quote(str(interpreter(venv)))} -m authoring "$@"\n'
    command.write_text(f"#!/bin/sh\n{start}", encoding="utf-8")
    command.chmod(0o755)


def prepare(lock: Path, *, venv: Path = VENV) -> Path:
    """Make `venv` hold what `lock` names and return its Python; at once if it already does.

    Raises SetUpError.
    """
    if not lock.is_file() or not (ROOT / "pyproject.toml").is_file():
        raise SetUpError(
            "This copy of Rungbook is installed and needs no set-up. Start it with: rungbook"
        )
    wanted = stamp_of(lock)
    usable = is_usable(venv)
    held = stamps(venv) if usable else {}
    if held.get(lock.name) == wanted:
        return interpreter(venv)
    if not usable:
        _make(venv)
    # No stamp while pip works: an interrupted install is done again.
    _write_stamps(venv, {})
    _fill(venv, lock)
    _add_program(venv)
    held = {lock.name: wanted}
    if lock == TEST_LOCK:
        # The test lock holds every runtime requirement in the same version.
        held[RUNTIME_LOCK.name] = stamp_of(RUNTIME_LOCK)
    _write_stamps(venv, held)
    return interpreter(venv)
