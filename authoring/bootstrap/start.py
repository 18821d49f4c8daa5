"""What a person sees after the set-up: the editor, or the example clinic's handouts."""

import subprocess
from pathlib import Path

from authoring.bootstrap import system
from authoring.bootstrap.environment import ROOT
from authoring.bootstrap.told import SetUpError, run, say

FORMATS = ("docx", "html", "pdf")
OUTPUT = "rungbook-handouts"
LIBRARY = "rungbook-example"


def has_editor() -> bool:
    return (ROOT / "authoring" / "editor" / "__init__.py").is_file()


def example_protocols(root: Path = ROOT) -> list[Path]:
    """The protocols of the example clinic, in order of name."""
    return sorted((root / "examples").glob("**/protocols/*.protocol.json"))


def write_handouts(python: Path, folder: Path) -> list[Path]:
    """Write each example protocol in each format into `folder`; the files written.

    Raises SetUpError when there is nothing to write or a handout cannot be written.
    """
    protocols = example_protocols()
    if not protocols:
        raise SetUpError(
            f"The example clinic was not found in {ROOT / 'examples'}. "
            "Get a complete copy of the project and run this command again."
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise SetUpError(
            f"The folder {folder} cannot be made ({fault.strerror}). "
            "Run this command from a folder that you can write to."
        ) from fault
    say(f"Writing the example clinic's handouts into {folder}.")
    files = []
    for protocol in protocols:
        for suffix in FORMATS:
            file = folder / f"{protocol.name.removesuffix('.protocol.json')}.{suffix}"
            words = ["-m", "authoring", "handout", str(protocol), "-o", str(file)]
            # 1 says that checks found something; the handout is then still written.
            if run([python, *words], folder=ROOT) not in (0, 1) or not file.is_file():
                raise SetUpError(f"The handout {file} was not written; the lines above say why.")
            files.append(file)
    return files


def example_library(python: Path, folder: Path) -> Path:
    """A copy of the example clinic to work in, made where there is none yet.

    Raises:
        SetUpError: it can't be written.
    """
    library = folder / LIBRARY
    if not (library / "library.json").is_file():
        words = ["-m", "authoring", "new", str(library), "--example"]
        if run([python, *words], folder=ROOT):
            raise SetUpError(f"The example clinic was not copied to {library}; see above why.")
    return library


def start(python: Path, folder: Path) -> int:
    """Open the editor where there is a screen, else write the handouts into `folder`.

    The exit status to end with; raises SetUpError.
    """
    if has_editor() and system.has_display() and not system.missing_libraries():
        library = example_library(python, folder)
        say(f"Opening the editor on the example clinic, a copy of which lies in {library}.")
        words = [str(python), "-m", "authoring", "--open", str(library)]
        return subprocess.run(words, check=False).returncode
    if has_editor() and not system.has_display():
        say("There is no display, so the editor stays closed.")
    target = folder / OUTPUT
    write_handouts(python, target)
    say(f"Done: open the files in {target}.")
    return 0
