"""Refuse an old Python in one sentence before any newer syntax is read."""

import sys

if sys.version_info < (3, 11):  # noqa: UP036 - the point is to tell those who run an older one
    sys.stderr.write(
        "Rungbook needs Python 3.11 or newer and this is %d.%d. "  # noqa: UP031
        "Install a newer Python and run its python3.\n" % sys.version_info[:2]
    )
    raise SystemExit(2)

from authoring.bootstrap.command import main

raise SystemExit(main(sys.argv[1:]))
