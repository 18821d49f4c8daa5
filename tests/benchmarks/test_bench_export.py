"""One stage to each format, beside pandoc and LibreOffice on the same content.

The peers are whole programs, so each of ours is measured twice: the writer alone, and in
``test_bench_command`` as a process with everything from reading the library on.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from authoring.handout.document import Exercise, HandoutDocument
from authoring.handout.docx import write_docx
from authoring.handout.html import write_html
from authoring.handout.pdf import write_pdf
from authoring.handout.words import part_words
from tests.handout.clinic_sheets import printed
from tests.tools import pandoc, soffice

STAGE = ("lateral-ankle-sprain-back-to-running", (2,))


def _escaped(text: str) -> str:
    return re.sub(r"([\\`*_{}\[\]()#+.!|<>~-])", r"\\\1", text)


def markdown(document: HandoutDocument) -> str:
    """The words of a handout as Markdown: headings, lists and paragraphs."""
    return "\n\n".join(_lines(document)) + "\n"


def _lines(document: HandoutDocument) -> Iterator[str]:
    yield f"# {_escaped(document.title)}"
    yield _escaped(document.lead)
    for part in document.parts:
        if isinstance(part, Exercise):
            yield f"## {part.number} {_escaped(part.name)}"
            yield "\n".join(f"{n}. {_escaped(step)}" for n, step in enumerate(part.steps, 1))
            said = {str(part.number), part.name, *part.steps}
            yield from (_escaped(text) for text in part_words(part) if text and text not in said)
        else:
            texts = [text for text in part_words(part) if text.strip()]
            yield f"## {_escaped(texts[0])}" if texts else ""
            yield from (_escaped(text) for text in texts[1:])


def test_the_peers_get_the_same_words() -> None:
    document = printed(*STAGE)
    text = re.sub(r"\\(.)", r"\1", markdown(document))
    for part in document.parts:
        for words in part_words(part):
            assert words in text


@pytest.mark.parametrize(
    ("write", "limit_s"),
    [
        pytest.param(write_docx, 1.0, id="docx"),
        pytest.param(write_html, 0.5, id="html"),
        pytest.param(write_pdf, 1.0, id="pdf"),
    ],
)
def test_our_writer(
    benchmark: BenchmarkFixture, write: Callable[[HandoutDocument], bytes], limit_s: float
) -> None:
    document = printed(*STAGE)
    benchmark.extra_info["limit_s"] = limit_s
    assert benchmark.pedantic(write, args=(document,), rounds=7, warmup_rounds=1)


@pytest.mark.parametrize("ending", ["docx", "html"])
def test_pandoc(benchmark: BenchmarkFixture, ending: str, tmp_path: Path) -> None:
    source = tmp_path / "x.md"
    source.write_text(markdown(printed(*STAGE)), encoding="utf-8")
    command = [str(pandoc()), "--standalone", "-o", str(tmp_path / f"x.{ending}"), str(source)]
    command += ["--metadata", "title=x"]
    benchmark.pedantic(
        subprocess.run,
        args=(command,),
        kwargs={"check": True, "capture_output": True},
        rounds=7,
        warmup_rounds=1,
    )


def test_libreoffice_makes_a_pdf_of_our_word_file(
    benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    source = tmp_path / "x.docx"
    source.write_bytes(write_docx(printed(*STAGE)))
    command = [str(soffice()), f"-env:UserInstallation=file://{tmp_path}/profile", "--headless"]
    command += ["--convert-to", "pdf", "--outdir", str(tmp_path), str(source)]
    benchmark.pedantic(
        subprocess.run,
        args=(command,),
        kwargs={"check": True, "capture_output": True},
        rounds=3,
        warmup_rounds=1,
    )
    assert (tmp_path / "x.pdf").stat().st_size > 0
