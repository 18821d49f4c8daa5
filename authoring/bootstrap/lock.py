"""Renew the locks. Needs `uv` and `npm`; a contributor does it, never a user."""

import shutil
import tempfile
from pathlib import Path

from authoring.bootstrap.environment import ROOT, RUNTIME_LOCK, TEST_LOCK, VENV
from authoring.bootstrap.judges import FILES, MANIFEST
from authoring.bootstrap.told import SetUpError, run, say


def _uv() -> str:
    found = shutil.which("uv") or shutil.which("uv", path=str(VENV / "bin"))
    if found is None:
        raise SetUpError("Renewing the locks needs uv. Run: .venv/bin/python -m pip install uv")
    return found


def _compile(output: Path, *options: str | Path) -> None:
    command: list[str | Path] = [_uv(), "pip", "compile", "pyproject.toml", "--quiet"]
    # --no-config: a lock must not depend on this machine's own indexes.
    command += ["--no-config", "--universal", "--python-version", "3.11", "--upgrade"]
    command += ["--generate-hashes", "--no-header", "--no-annotate", "--no-emit-index-url"]
    if run([*command, *options, "-o", output], folder=ROOT):
        raise SetUpError(f"{output.name} could not be renewed; uv's lines above say why.")


def renew() -> int:
    """Write both Python locks and the npm lock anew; raises SetUpError."""
    with tempfile.TemporaryDirectory() as folder:
        runtime, test = (Path(folder) / lock.name for lock in (RUNTIME_LOCK, TEST_LOCK))
        _compile(runtime)
        # One version of each package in both, so that either environment runs the program.
        _compile(test, "--extra", "dev", "--constraint", runtime)
        shutil.copyfile(runtime, RUNTIME_LOCK)
        shutil.copyfile(test, TEST_LOCK)
        npm = shutil.which("npm")
        if npm is None:
            raise SetUpError("Renewing the npm lock needs npm. Install nodejs and npm.")
        shutil.copyfile(MANIFEST / FILES[0], Path(folder) / FILES[0])
        command = [npm, "install", "--package-lock-only", "--ignore-scripts"]
        command += ["--omit-lockfile-registry-resolved", "--no-audit", "--no-fund"]
        if run(command, folder=Path(folder)):
            raise SetUpError("The npm lock could not be renewed; npm's lines above say why.")
        shutil.copyfile(Path(folder) / FILES[1], MANIFEST / FILES[1])
    say("The locks are renewed. Run the tests before you commit them.")
    return 0
