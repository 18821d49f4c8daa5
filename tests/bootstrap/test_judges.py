"""Each outside judge answers here, and sees a fault that was planted for it."""

from pathlib import Path

import docx
import pytest
import typst
from docx.oxml.ns import qn

from tests import tools

PAGE = """<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Ankle</title>
</head><body><main><h1>Ankle</h1>{body}</main></body></html>"""


def written(folder: Path, body: str) -> Path:
    path = folder / "page.html"
    path.write_text(PAGE.format(body=body), encoding="utf-8")
    return path


def test_the_html_checker_passes_a_plain_page(tmp_path: Path) -> None:
    assert tools.vnu_faults(written(tmp_path, "<p>Stand tall.</p>")) == []


def test_the_html_checker_sees_a_repeated_id(tmp_path: Path) -> None:
    faults = tools.vnu_faults(written(tmp_path, '<p id="a">One</p><p id="a">Two</p>'))
    assert any("Duplicate ID" in fault for fault in faults)


def test_axe_passes_a_plain_page(tmp_path: Path) -> None:
    assert tools.axe_faults(written(tmp_path, "<p>Stand tall.</p>")) == []


def test_axe_sees_faint_text_and_an_outside_address(tmp_path: Path) -> None:
    body = '<p style="color:#ccc">Faint</p><img src="https://example.org/a.png" alt="a step">'
    faults = tools.axe_faults(written(tmp_path, body))
    assert [fault.split(":")[0] for fault in faults] == [
        "color-contrast",
        "asked the network for https",
    ]


@pytest.fixture
def slim_docx(tmp_path: Path) -> Path:
    """A small Word file without the stale part of the library's own template."""
    document = docx.Document()
    for relation in list(document.part.rels.values()):
        if relation.reltype.endswith("stylesWithEffects"):
            document.part.drop_rel(relation.rId)
    document.add_paragraph("Stand tall.")
    path = tmp_path / "page.docx"
    document.save(str(path))
    return path


JUDGES_OF_WORD = [tools.ooxml_sdk_faults, tools.openxml_audit_faults]


@pytest.mark.parametrize("judge", JUDGES_OF_WORD)
def test_both_word_judges_pass_a_plain_file(judge, slim_docx: Path) -> None:
    assert judge(slim_docx) == []


@pytest.mark.parametrize("judge", JUDGES_OF_WORD)
def test_both_word_judges_see_an_element_out_of_place(judge, slim_docx: Path) -> None:
    document = docx.Document(str(slim_docx))
    body = document.element.body
    body.insert(0, body.makeelement(qn("w:pPr"), {}))
    document.save(str(slim_docx))
    assert judge(slim_docx)


def pdf(folder: Path, standards: list[str]) -> Path:
    path = folder / "page.pdf"
    source = '#set document(title: "Ankle")\n#set text(lang: "en")\n= Ankle\nStand tall.'
    path.write_bytes(typst.compile(source.encode(), pdf_standards=standards))
    return path


def test_the_pdf_judge_passes_a_tagged_file(tmp_path: Path) -> None:
    assert tools.pdfua_faults(pdf(tmp_path, ["ua-1"])) == []


def test_the_pdf_judge_sees_a_file_that_claims_nothing(tmp_path: Path) -> None:
    assert tools.pdfua_faults(pdf(tmp_path, ["1.7"]))


@pytest.mark.parametrize(
    "finder", [tools.soffice, tools.pandoc, tools.pdftoppm, tools.pdftotext, tools.chromium]
)
def test_each_outside_program_is_a_file(finder) -> None:
    assert finder().is_file()


def test_a_missing_judge_is_a_skip_that_names_its_mend(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(tools.REQUIRE_ALL, raising=False)
    with pytest.raises(pytest.skip.Exception, match="not run: a judge, install it with: apt-get"):
        tools.not_run("a judge", "apt-get install judge")


def test_a_missing_judge_is_a_failure_where_all_are_demanded(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv(tools.REQUIRE_ALL, "1")
    with pytest.raises(pytest.fail.Exception, match="not run: a judge"):
        tools.not_run("a judge", "apt-get install judge")
