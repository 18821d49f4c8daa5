"""What can go wrong with a file, said in one sentence a reader can act on.

Every public function of the storage modules raises :class:`FileProblem` or a
subclass and nothing else for what a disk, a share or another program did.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path

from authoring.model.sentence import Sentence, say


class Outcome(StrEnum):
    """How a file on disk stands to what was last read from it."""

    UNCHANGED = "unchanged"
    CHANGED = "changed"
    MISSING = "missing"


class FileProblem(Exception):  # noqa: N818 - shown to readers, to whom it is not "an error"
    """A file that could not be used.

    ``path`` is the file as the caller named it, ``sentence`` says what is wrong
    and where, ``mend`` what to do about it. Neither ends in a full stop.
    """

    def __init__(self, path: Path | str, sentence: Sentence, mend: Sentence) -> None:
        super().__init__(path, sentence, mend)
        self.path = Path(path)
        self.sentence = sentence
        self.mend = mend

    def __str__(self) -> str:
        return self.whole

    @property
    def whole(self) -> Sentence:
        """The file, what is wrong with it and how to mend it, as one sentence."""
        return say(
            "{path}: {sentence}; {mend}.",
            path=shown(self.path),
            sentence=self.sentence,
            mend=self.mend,
        )


def shown(path: Path | str) -> str:
    """The path on one line, whatever characters a hostile name holds."""
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in str(path))


class Unreadable(FileProblem):
    """The file is missing, not a plain file, too large, or reading it failed."""


class NotStrictJson(FileProblem):
    """The bytes are not JSON as this program accepts it.

    ``line`` and ``column`` count from 1; None where the fault has no place.
    """

    def __init__(
        self,
        path: Path | str,
        sentence: Sentence,
        mend: Sentence,
        *,
        line: int | None = None,
        column: int | None = None,
    ) -> None:
        super().__init__(path, sentence, mend)
        self.line = line
        self.column = column


class Unwritable(FileProblem):
    """Nothing was written; whatever was there before is still there whole."""


class Unconfirmed(FileProblem):
    """The new content is in place but the disk did not confirm it.

    The old or the new content, whole, will be there after a power cut. Tell the
    user and save anew to another place; do not count the work as saved.
    """


class Busy(FileProblem):
    """Another writer held the folder for the whole time allowed."""


class OutsideChange(FileProblem):
    """Somebody else changed or removed files since they were read.

    Nothing was written. ``outcomes`` gives every file that stands in the way,
    with ``CHANGED`` or ``MISSING``; ``outcome`` is that of ``path``, the first.
    """

    def __init__(self, outcomes: Sequence[tuple[Path, Outcome]]) -> None:
        path, outcome = outcomes[0]
        others = len(outcomes) - 1
        super().__init__(
            path,
            _outside(outcome, others),
            say("compare the two, then save under another name or open it again"),
        )
        self.outcomes = tuple(outcomes)
        self.outcome = outcome


def _outside(outcome: Outcome, others: int) -> Sentence:
    if outcome is Outcome.CHANGED:
        found = say("this file was changed outside this window since it was opened")
    else:
        found = say("this file was moved or deleted outside this window since it was opened")
    if not others:
        return found
    return say("{found} (and {others} more with it)", found=found, others=others)


_NO_SPACE = (say("the disk or your share of it is full"), say("free some space and save again"))
_NO_RIGHT = (
    say("this account has no right to do that here, or another program holds the file open"),
    say("ask for write access, close the other program, or choose another folder"),
)
_GONE = (
    say("the disk or network share stopped answering"),
    say("check the connection, then try again or save elsewhere"),
)
_BUSY = (say("another program is using it"), say("close that program and try again"))
_BAD_NAME = (say("this name can't be used for a file here"), say("choose a plain, shorter name"))

_BY_ERRNO: dict[str, tuple[Sentence, Sentence]] = {
    "ENOSPC": _NO_SPACE,
    "EDQUOT": _NO_SPACE,
    "EFBIG": (say("the file is too large for this disk"), say("save it on another disk")),
    "EROFS": (say("the disk is read only"), say("choose another folder")),
    "EACCES": _NO_RIGHT,
    "EPERM": _NO_RIGHT,
    "ENOENT": (
        say("there is no such file or folder"),
        say("check the name, or make the folder first"),
    ),
    "ENOTDIR": (say("part of this path is a file, not a folder"), say("check the path")),
    "EISDIR": (say("this is a folder, not a file"), say("name a file inside it")),
    "ENAMETOOLONG": (say("the name is too long for this disk"), say("choose a shorter name")),
    "ELOOP": (say("the links on this path lead in a circle"), say("name the real file")),
    "EINVAL": _BAD_NAME,
    "EILSEQ": _BAD_NAME,
    "EIO": (
        say("the disk reported a fault"),
        say("save elsewhere now and have the disk or share checked"),
    ),
    "EMFILE": (say("too many files are open"), say("close some and try again")),
    "ENFILE": (say("too many files are open"), say("close some programs and try again")),
    "EBUSY": _BUSY,
    "ETXTBSY": _BUSY,
    "ESTALE": _GONE,
    "ENODEV": _GONE,
    "ENXIO": _GONE,
    "ETIMEDOUT": _GONE,
    "ENOTCONN": _GONE,
    "ENETDOWN": _GONE,
    "ENETUNREACH": _GONE,
    "EHOSTDOWN": _GONE,
    "EHOSTUNREACH": _GONE,
    "EREMOTEIO": _GONE,
}


def explain(error: BaseException) -> tuple[Sentence, Sentence]:
    """Sentence and mend for an error of the operating system or of memory."""
    if isinstance(error, MemoryError):
        return say("the computer ran out of memory"), say("close other programs and try again")
    number = getattr(error, "errno", None)
    known = _BY_ERRNO.get(errno.errorcode.get(number, "")) if number else None
    if known:
        return known
    reason = getattr(error, "strerror", None) or "no reason given"
    return say("the system refused ({reason})", reason=reason), say(
        "try again, or choose another folder"
    )


@contextmanager
def told_as(kind: type[FileProblem], path: Path | str, doing: Sentence) -> Iterator[None]:
    """Turn what the system raises inside the block into ``kind``.

    ``doing`` opens the sentence: "could not save". A :class:`FileProblem` raised
    inside passes through untouched; so does anything that is a fault of ours.
    """
    # The system refuses names with NUL or half characters before any call.
    if "\0" in str(path) or not _sayable(path):
        raise kind(path, say("{doing}: {why}", doing=doing, why=_BAD_NAME[0]), _BAD_NAME[1])
    try:
        yield
    except (OSError, MemoryError) as error:
        sentence, mend = explain(error)
        raise kind(path, say("{doing}: {why}", doing=doing, why=sentence), mend) from error


def _sayable(path: Path | str) -> bool:
    try:
        os.fsencode(path)
    except UnicodeError:
        return False
    return True
