"""How the set-up speaks: sentences on stderr, and one error type that is a sentence."""

import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path


class SetUpError(Exception):
    """The set-up cannot go on; the message says what, where and how to mend it."""


def say(sentence: str) -> None:
    """Print one sentence for the person at the terminal."""
    sys.stdout.flush()
    print(sentence, file=sys.stderr, flush=True)


def run(
    command: Sequence[str | Path],
    *,
    folder: Path,
    environment: Mapping[str, str] | None = None,
    keep_stdout: bool = False,
) -> int:
    """Run a command in `folder` without input; its exit status, 127 if it cannot be started.

    What it prints goes to stderr; with `keep_stdout`, its stdout stays stdout.
    """
    words = [str(word) for word in command]
    sys.stdout.flush()
    try:
        return subprocess.run(
            words,
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=None if keep_stdout else sys.stderr,
            check=False,
        ).returncode
    except OSError as fault:
        say(f"{words[0]} could not be started: {fault.strerror or fault}.")
        return 127
