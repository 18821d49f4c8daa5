"""The outside judges that come from npm, kept inside the environment, apart from the program."""

import hashlib
import shutil
from pathlib import Path

from authoring.bootstrap.told import run, say

MANIFEST = Path(__file__).resolve().parent / "tools"
FILES = ("package.json", "package-lock.json")


def _wanted() -> str:
    return hashlib.sha256(b"".join((MANIFEST / name).read_bytes() for name in FILES)).hexdigest()


def install(venv: Path) -> bool:
    """Install the npm manifest into `venv`/tools; True if it is there afterwards."""
    folder = venv / "tools"
    stamp = folder / "stamp"
    wanted = _wanted()
    if stamp.is_file() and stamp.read_text(encoding="utf-8") == wanted:
        return True
    npm = shutil.which("npm")
    if npm is None:
        say("npm is missing, so the judges that it brings will be named as not run.")
        return False
    say("Installing the outside judges from npm.")
    folder.mkdir(parents=True, exist_ok=True)
    stamp.unlink(missing_ok=True)
    for name in FILES:
        shutil.copyfile(MANIFEST / name, folder / name)
    # One package's script would fetch a Java of its own; Debian's does.
    command = [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund"]
    command += ["--no-update-notifier", "--loglevel=error"]
    if run(command, folder=folder):
        say("npm could not install them; its lines above say why. They will be named as not run.")
        return False
    stamp.write_text(wanted, encoding="utf-8")
    return True
