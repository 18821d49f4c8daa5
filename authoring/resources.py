"""Where the data folders lie: beside the package in a checkout, inside it in an installed wheel.

Every function raises `ResourceMissingError` when the folder is not there, which means a damaged
installation. The folders are read, never written.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


class ResourceMissingError(Exception):
    """A data folder of the program itself is not where the installation should have put it."""


def _folder(*names: str) -> Path:
    installed = _PACKAGE / "_data"
    base = installed if installed.is_dir() else _PACKAGE.parent
    path = base.joinpath(*names)
    if not path.is_dir():
        raise ResourceMissingError(
            f"Rungbook's own folder {path} is missing. Install the program again to mend it."
        )
    return path


def schemas() -> Path:
    """The JSON Schemas of the file formats, `*.schema.json`."""
    return _folder("schemas")


def templates() -> Path:
    """Page templates, with `fonts` and `phrases` inside."""
    return _folder("templates")


def fonts() -> Path:
    """The shipped TrueType fonts; system fonts are never needed."""
    return _folder("templates", "fonts")


def phrases() -> Path:
    """The handout's phrase catalogues, one file per language."""
    return _folder("templates", "phrases")


def stock_illustrations() -> Path:
    """Poses and drawings that come with the program."""
    return _folder("stock_illustrations")


def examples() -> Path:
    """The invented example clinic and the user guide."""
    return _folder("examples")
