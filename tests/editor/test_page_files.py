"""Files are named as every system takes them, and written whole or not at all."""

import io
from pathlib import Path

import docx
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.editor.page.files import Format, file_name, save_page, with_ending
from authoring.editor.page.wish import PageFault
from authoring.editor.workers import Stopped, Token
from tests.editor import page_jobs as pages

# Naming Files, Paths, and Namespaces (Microsoft Learn): these signs and names are reserved.
FORBIDDEN = set('<>:"/\\|?*')
RESERVED = {"con", "prn", "aux", "nul", "com1", "lpt9"}


@given(st.text(max_size=300), st.sampled_from(Format))
def test_any_title_makes_a_name_that_every_system_takes(title: str, kind: Format) -> None:
    name = file_name(title, kind)
    stem = name.removesuffix(kind.value)
    assert not FORBIDDEN & set(name)
    assert all(ord(sign) >= 32 for sign in name)
    assert stem
    assert stem == stem.strip(". ")
    assert stem.partition(".")[0].lower() not in RESERVED
    assert len(name) <= 120


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Ankle sprain, stage 2", "Ankle sprain, stage 2.pdf"),
        ("Knee: pain / load?", "Knee pain load.pdf"),
        ("con", "con handout.pdf"),
        ("LPT1.old", "LPT1.old handout.pdf"),
        ("...", "handout.pdf"),
        ("Gèn ou\n", "Gèn ou.pdf"),
    ],
)
def test_a_name_stays_readable(title: str, name: str) -> None:
    assert file_name(title, Format.PDF) == name


@pytest.mark.parametrize(
    ("typed", "kind", "written"),
    [
        ("a", Format.PDF, "a.pdf"),
        ("a.PDF", Format.WORD, "a.PDF"),
        ("a.html", Format.PDF, "a.html"),
        ("stage 1.2", Format.WORD, "stage 1.2.docx"),
    ],
)
def test_an_ending_of_ours_is_kept_and_any_other_gets_one(
    typed: str, kind: Format, written: str
) -> None:
    assert with_ending(Path(typed), kind).name == written


@pytest.mark.parametrize("kind", Format)
def test_each_kind_of_file_opens_in_its_own_reader(kind: Format, tmp_path: Path) -> None:
    path = tmp_path / f"page{kind.value}"
    told: list[tuple[int, int]] = []
    token = Token(lambda done, of: told.append((done, of)))
    title = "A title for these readers"
    assert save_page((pages.job(pages.titled(title), stages=(1,)), path), token) == path
    data = path.read_bytes()
    if kind is Format.PDF:
        words = pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range()
    elif kind is Format.WORD:
        words = "\n".join(p.text for p in docx.Document(io.BytesIO(data)).paragraphs)
    else:
        words = data.decode("utf-8")
    assert title in words
    # News of what is quickly done may be left out: a token passes on 20 a second.
    assert told[0] == (0, 2)
    assert told[1:] in ([], [(1, 2)])


def test_a_page_that_cannot_be_made_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "page.pdf"
    path.write_bytes(b"old")
    broken = pages.with_protocol(
        lambda old: type(old)(id=old.id, slug=old.slug, language=old.language, title=old.title)
    )
    with pytest.raises(PageFault, match="no stage yet"):
        save_page((pages.job(broken), path), pages.idle())
    assert path.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["page.pdf"]


def test_a_stopped_save_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "page.pdf"
    token = Token(lambda _done, _of: None)
    token.stop()
    with pytest.raises(Stopped):
        save_page((pages.job(), path), token)
    assert not path.exists()


def test_a_folder_in_the_way_is_said_in_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "page.pdf"
    path.mkdir()
    with pytest.raises(PageFault) as caught:
        save_page((pages.job(stages=(1,)), path), pages.idle())
    assert caught.value.sentence == (
        f"{path}: this is a folder, not a file; name a file inside it."
    )
