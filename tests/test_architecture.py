"""The shape of the house, read from the source text and from imports in a fresh interpreter."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "authoring"
MODULES = sorted(PACKAGE.rglob("*.py"))
TEXTS = MODULES + sorted((ROOT / "tests").rglob("*.py"))

# Rooms with a screen, or without a life as a library.
APART = {"editor", "bootstrap"}
ROOMS = sorted(
    path.parent.name for path in PACKAGE.glob("*/__init__.py") if path.parent.name not in APART
)

SPEAKING = {"bootstrap", "cli", "cli.py", "editor", "__main__.py", "terminal.py"}
SILENT = [path for path in MODULES if path.relative_to(PACKAGE).parts[0] not in SPEAKING]

FILE_LINES = 500
FUNCTION_LINES = 50
CLASS_METHODS = 25

# Modules that can open a connection. `ssl` and `asyncio` come with them, never alone.
NETWORK = {"socket", "ssl", "urllib.request", "http", "ftplib", "smtplib", "requests", "httpx"}
NETWORK |= {"aiohttp", "urllib3", "socketserver", "xmlrpc", "PySide6.QtNetwork"}

BLOCKED = """
import importlib, pkgutil, sys

class NoScreen:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in ("PySide6", "shiboken6"):
            raise ImportError(f"{name} is not for this room")

sys.meta_path.insert(0, NoScreen())
package = importlib.import_module(sys.argv[1])
for found in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
    importlib.import_module(found.name)
"""


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def parsed(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def imports(tree: ast.AST) -> Iterator[str]:
    """Every dotted name that the module imports, also inside functions."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_imports_whole_where_there_is_no_qt(room: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", BLOCKED, f"authoring.{room}"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr


def test_the_set_up_imports_with_the_standard_library_alone() -> None:
    start = f"import sys; sys.path.append({str(ROOT)!r}); import authoring.bootstrap.command"
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", start],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_opens_no_network(path: Path) -> None:
    asked = {
        name
        for name in imports(parsed(path))
        for barred in NETWORK
        if name == barred or name.startswith(barred + ".")
    }
    assert asked == set()


@pytest.mark.parametrize("path", SILENT, ids=name_of)
def test_a_silent_room_prints_nothing(path: Path) -> None:
    printed = [
        node.lineno
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in {"print", "input"}
    ]
    assert printed == []


@pytest.mark.parametrize("path", TEXTS, ids=name_of)
def test_a_file_keeps_its_budget(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= FILE_LINES


def too_long(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            if lines > FUNCTION_LINES:
                yield f"{node.name} has {lines} lines"
        elif isinstance(node, ast.ClassDef):
            methods = sum(isinstance(child, ast.FunctionDef) for child in node.body)
            if methods > CLASS_METHODS:
                yield f"{node.name} has {methods} methods"


@pytest.mark.parametrize("path", TEXTS, ids=name_of)
def test_functions_and_classes_keep_their_budgets(path: Path) -> None:
    assert list(too_long(parsed(path))) == []


def test_the_budget_itself_sees_a_long_function_and_a_wide_class() -> None:
    long_one = "def long_one():\n" + "    x = 1\n" * FUNCTION_LINES
    wide_one = "class WideOne:\n" + "".join(
        f"    def m{number}(self): ...\n" for number in range(CLASS_METHODS + 1)
    )
    assert list(too_long(ast.parse(long_one + wide_one))) == [
        "long_one has 51 lines",
        "WideOne has 26 methods",
    ]
