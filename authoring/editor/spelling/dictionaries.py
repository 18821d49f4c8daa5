"""Dictionaries by language. No Qt here.

British English is bundled (see ``dictionaries/en-GB.LICENSE.txt``); others are used where
this computer has them in the Hunspell format.
"""

from __future__ import annotations

import importlib
import sys
import threading
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any, Protocol

_OWN = Path(__file__).with_name("dictionaries")
_SYSTEM = {
    "linux": ("/usr/share/hunspell", "/usr/share/myspell", "/usr/share/myspell/dicts"),
    "darwin": ("/Library/Spelling", "~/Library/Spelling"),
}
_MOST_SUGGESTED = 6


class Dictionary(Protocol):
    """The words of one language."""

    def knows(self, word: str) -> bool:
        """Whether a word is spelled so."""

    def suggest(self, word: str) -> tuple[str, ...]:
        """Words that may have been meant, the likeliest first; takes tens of milliseconds."""


class HunspellDictionary:
    """A dictionary read from an ``.aff`` and a ``.dic`` file."""

    def __init__(self, path: Path) -> None:
        """Args:
        path: the ``.dic`` file; its ``.aff`` lies beside it.

        Raises:
            ImportError: the reader is not installed on this computer.
            OSError: the files can't be read.
        """
        module: Any = importlib.import_module("hunspell")
        self._reader = module.Hunspell(path.stem, hunspell_data_dir=str(path.parent))
        self._lock = threading.Lock()

    def knows(self, word: str) -> bool:
        """Whether a word is spelled so."""
        with self._lock:
            return bool(self._reader.spell(word))

    def suggest(self, word: str) -> tuple[str, ...]:
        """Words that may have been meant, the likeliest first."""
        with self._lock:
            return tuple(self._reader.suggest(word))[:_MOST_SUGGESTED]


def folders() -> tuple[Path, ...]:
    """Where dictionaries are looked for, our own first."""
    system = tuple(Path(name).expanduser() for name in _SYSTEM.get(sys.platform, ()))
    return (_OWN, *_shipped(), *system)


def _shipped() -> Iterator[Path]:
    """Where the reader keeps the dictionaries that come with it."""
    try:
        module = importlib.import_module("hunspell")
    except ImportError:
        return
    if module.__file__:
        yield Path(module.__file__).with_name("dictionaries")


def path_for(language: str, places: tuple[Path, ...] | None = None) -> Path | None:
    """The ``.dic`` file for a language: of its region, else of any; None where there is none.

    Args:
        language: BCP-47 tag.
        places: folders to look in; None for the usual ones.
    """
    looked = folders() if places is None else places
    found = [path for folder in looked for path in sorted(folder.glob("*.dic")) if _whole(path)]
    wanted = language.replace("_", "-").lower()
    base = wanted.partition("-")[0]
    tags = [(path.stem.replace("_", "-").lower(), path) for path in found]
    same = [path for tag, path in tags if tag == wanted]
    near = [path for tag, path in tags if tag.partition("-")[0] == base]
    return next(iter(same + near), None)


def _whole(path: Path) -> bool:
    return path.with_suffix(".aff").is_file()


def load(language: str) -> Dictionary | None:
    """The dictionary for a language, read once; None where this computer has none.

    The reader lets nothing else run while it reads, for a fifth of a second: the program
    reads the dictionary of a library's own language before its window is there.
    """
    path = path_for(language)
    return None if path is None else _read(path)


@lru_cache(maxsize=8)
def _read(path: Path) -> Dictionary | None:
    try:
        return HunspellDictionary(path)
    except (ImportError, OSError):
        return None
