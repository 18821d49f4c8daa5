"""What happens when the program itself fails: the work is kept, and a sentence says so."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import TracebackType
from typing import TYPE_CHECKING

from authoring.editor.i18n import tr

if TYPE_CHECKING:
    from authoring.editor.app import Editor

Hook = Callable[[type[BaseException], BaseException, TracebackType | None], object]


def keep_work(editor: Editor) -> Hook:
    """A hook for ``sys.excepthook``: keeps every window's unsaved work and says so.

    The traceback still goes to stderr, for whoever mends the program.
    """

    def hook(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        sys.__excepthook__(kind, error, trace)
        for window in editor.windows:
            window.session.storage.keep()
            window.session.messages.warn(
                tr(
                    "The program failed at this ({kind}). Your work is kept in a recovery copy; "
                    "save it, then close and open the library again.",
                    kind=kind.__name__,
                )
            )

    return hook
