"""The set-up's command line."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from authoring.bootstrap import environment, judges, lock, start, suite, system
from authoring.bootstrap.told import SetUpError, say


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m authoring.bootstrap",
        description="Set Rungbook up in .venv, then open the editor on the example clinic or, "
        "without a display, write its handouts.",
    )
    parts = parser.add_subparsers(dest="part", metavar="test | lock")
    test = parts.add_parser("test", help="set up, fetch the outside judges, run the checks")
    test.add_argument("--require-all", action="store_true", help="a judge not run is a failure")
    test.add_argument("--long", action="store_true", help="the long tests and benchmark limits")
    test.add_argument("--seed", type=int, help="seed of the long tests; new each time if not set")
    parts.add_parser("lock", help="renew the locks from pyproject.toml and package.json")
    return parser


def _test(arguments: argparse.Namespace) -> int:
    system.provide_qt_libraries()
    system.provide_test_programs()
    python = environment.prepare(environment.TEST_LOCK)
    judges.install(environment.VENV)
    if arguments.long:
        return suite.long(python, require_all=arguments.require_all, seed=arguments.seed)
    return suite.quick(python, require_all=arguments.require_all)


def _start() -> int:
    python = environment.prepare(environment.RUNTIME_LOCK)
    system.provide_qt_libraries()
    return start.start(python, Path.cwd())


def main(argv: Sequence[str]) -> int:
    """Exit status: 0 done, 1 a check or test failed, 2 the set-up could not be made."""
    arguments = _parser().parse_args(argv)
    try:
        if arguments.part == "test":
            return _test(arguments)
        if arguments.part == "lock":
            return lock.renew()
        return _start()
    except SetUpError as fault:
        say(str(fault))
        return 2
    except OSError as fault:
        say(f"{fault.filename or 'A file'} cannot be used: {fault.strerror or fault}.")
        return 2
    except KeyboardInterrupt:
        say("Stopped. Run the command again to go on.")
        return 130


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
