"""``rungbook handout`` writes one whole file, or nothing and a sentence."""

from __future__ import annotations

import json
import struct
from pathlib import Path
from zipfile import is_zipfile
from zlib import compress, crc32

import pytest

from tests.commands.conftest import ANKLE, CARD, Run, told
from tests.handout.docx_reader import WordFile
from tests.handout.html_reader import read
from tests.handout.pdf_reader import printed

FORMATS = ("docx", "html", "pdf")


@pytest.mark.parametrize("ending", FORMATS)
def test_each_format_is_written_and_named(run: Run, library: Path, ending: str) -> None:
    out = library.parent / f"ankle.{ending}"
    answer = run("handout", library / ANKLE, "-o", out, "--stage", 1)
    assert (answer.status, answer.out, answer.err) == (0, f"{out}\n", "")
    data = out.read_bytes()
    assert {"docx": is_zipfile(out), "html": data[:15].lower() == b"<!doctype html>"}.get(
        ending, data[:5] == b"%PDF-"
    )
    assert not list(library.parent.glob(".rungbook*"))


def test_an_ending_in_capitals_will_do(run: Run, library: Path) -> None:
    assert run("handout", library / CARD, "-o", library.parent / "CARD.HTML").status == 0


def test_stage_page_and_print_size_are_those_asked_for(run: Run, library: Path) -> None:
    out = library.parent / "x.pdf"
    wishes = ("--stage", 2, "--stage", 3, "--page", "letter", "--print-size", "large")
    assert run("handout", library / ANKLE, "-o", out, *wishes).status == 0
    things = printed(out.read_bytes())
    # ANSI/ASME Y14.1: Letter is 8.5 by 11 inches.
    assert {(round(each.page_width), round(each.page_height)) for each in things} == {(612, 792)}
    assert max(each.type_size for each in things) >= 30
    html = library.parent / "x.html"
    assert run("handout", library / ANKLE, "-o", html, *wishes).status == 0
    headings = [text for _, text in read(html.read_bytes()).headings]
    assert {"Load and balance", "Spring and hop"} <= set(headings)
    assert not {"Settle and move", "Back to running"} & set(headings)


def test_a_card_alone_is_marked_and_the_reason_told(run: Run, library: Path) -> None:
    out = library.parent / "card.docx"
    answer = run("handout", library / CARD, "-o", out)
    assert answer.status == 0
    assert answer.out == f"{out}\n"
    assert answer.err == (
        "rungbook: marked 'Draft, not for patients': a card alone is approved by nobody.\n"
    )
    assert WordFile(out.read_bytes()).body is not None


def test_a_card_changed_after_approval_is_marked_and_named(run: Run, library: Path) -> None:
    out = library.parent / "ankle.html"
    assert run("handout", library / ANKLE, "-o", out, "--stage", 1).err == ""
    used = json.loads((library / ANKLE).read_text(encoding="utf-8"))["stages"][0]["blocks"][0]
    for path in (library / "cards").iterdir():
        card = json.loads(path.read_text(encoding="utf-8"))
        if card["id"] == used["entries"][0]["card"]:
            path.write_text(json.dumps({**card, "title": "Something else"}), encoding="utf-8")
            slug = card["slug"]
    answer = run("handout", library / ANKLE, "-o", out, "--stage", 1)
    assert (answer.status, answer.err) == (
        0,
        f"rungbook: marked 'Draft, not for patients': the card {slug!r} was changed after the "
        "protocol was approved.\n",
    )
    assert "Draft, not for patients" in out.read_text(encoding="utf-8")


def test_a_file_outside_the_library_can_name_it(run: Run, library: Path, tmp_path: Path) -> None:
    alone = tmp_path / "alone.card.json"
    alone.write_bytes((library / CARD).read_bytes())
    out = tmp_path / "alone.html"
    refused = run("handout", alone, "-o", out)
    assert refused.status == 2
    assert "name the library with --library" in told(refused)
    assert run("handout", alone, "-o", out, "--library", library).status == 0


@pytest.mark.parametrize(
    ("wish", "sentence"),
    [
        (("-o", "x.odt"), "a handout is a .docx, .html or .pdf file"),
        (("-o", "x"), "a handout is a .docx, .html or .pdf file"),
        (("-o", "x.html", "--stage", 9), "There is no stage 9: the protocol"),
        (("-o", "x.html", "--stage", 0), "has stages 1 to 4; choose one of them"),
        (("-o", "x.html", "--stage", -1), "There is no stage -1"),
        (("-o", "x.html", "--language", "xx"), "no handout phrases for the language 'xx'"),
        (("-o", "x.html", "--language", "../en"), "no handout phrases for the language '../en'"),
        (("-o", "x.html", "--library", "nowhere"), "there is no such folder"),
    ],
)
def test_a_wish_that_can_not_be_met_is_status_2_and_writes_nothing(
    run: Run,
    library: Path,
    wish: tuple[object, ...],
    sentence: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(library.parent)
    answer = run("handout", library / ANKLE, *wish)
    assert answer.status == 2
    assert sentence in told(answer)
    assert [path.name for path in library.parent.iterdir()] == ["library"]


def test_only_a_protocol_has_stages_to_choose_from(run: Run, library: Path) -> None:
    answer = run("handout", library / CARD, "-o", library.parent / "x.html", "--stage", 1)
    assert answer.status == 2
    assert "Only a protocol has stages" in told(answer)


@pytest.mark.parametrize(
    ("output", "sentence"),
    [
        ("missing/x.html", "there is no such file or folder"),
        ("library/library.json/x.html", "part of this path is a file"),
        ("folder.html", "this is a folder"),
        ("x" * 300 + ".html", "the name is too long"),
    ],
)
def test_a_place_that_can_not_be_written_is_status_3(
    run: Run, library: Path, output: str, sentence: str
) -> None:
    (library.parent / "folder.html").mkdir()
    answer = run("handout", library / CARD, "-o", library.parent / output)
    assert answer.status == 3
    said = answer.err.splitlines()[-1]
    assert sentence in said


@pytest.mark.parametrize(
    ("source", "sentence"),
    [
        ("nowhere.card.json", "there is no such file"),
        ("library", "this is a folder, not a file"),
        ("library/library.json", "a handout is made from a protocol, a plan or a card"),
        ("library/clinic.json", "and this is a rungbook/clinic file"),
    ],
)
def test_a_source_that_can_not_be_used_is_status_2(
    run: Run, library: Path, source: str, sentence: str
) -> None:
    answer = run("handout", library.parent / source, "-o", library.parent / "x.html")
    assert answer.status == 2
    assert sentence in told(answer)
    assert not (library.parent / "x.html").exists()


def test_what_the_page_lacks_is_named_and_the_old_file_stays(run: Run, library: Path) -> None:
    out = library.parent / "x.html"
    out.write_text("old", encoding="utf-8")
    entry = json.loads((library / ANKLE).read_text(encoding="utf-8"))
    card_id = entry["stages"][0]["blocks"][0]["entries"][0]["card"]
    for path in (library / "cards").iterdir():
        if json.loads(path.read_text(encoding="utf-8"))["id"] == card_id:
            path.unlink()
    answer = run("handout", library / ANKLE, "-o", out)
    assert answer.status == 1
    assert "Exercise 1 uses a card that is not in the library" in told(answer)
    assert out.read_text(encoding="utf-8") == "old"


def test_a_missing_picture_is_named(run: Run, library: Path) -> None:
    for path in (library / "images").iterdir():
        path.unlink()
    answer = run("handout", library / ANKLE, "-o", library.parent / "x.pdf", "--stage", 1)
    assert answer.status == 1
    assert "is not in the images folder; add it, or take it out" in told(answer)


def png_of(wide: int, high: int) -> bytes:
    """A PNG whose head promises so many pixels (PNG, W3C Recommendation, 11.2.2 and 5.3)."""

    def chunk(kind: bytes, held: bytes) -> bytes:
        return struct.pack(">I", len(held)) + kind + held + struct.pack(">I", crc32(kind + held))

    head = struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)
    parts = (chunk(b"IHDR", head), chunk(b"IDAT", compress(b"0" * 9)), chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


@pytest.mark.parametrize("ending", FORMATS)
@pytest.mark.parametrize(
    "held",
    [
        b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
        b"<script>alert(1)</script>",
        b"GIF89a" + b"\0" * 50,
        png_of(9, 9)[:40],
        png_of(60_000, 60_000),
        b"",
    ],
    ids=["SVG with a script", "a script", "GIF", "cut off", "a bomb", "empty"],
)
def test_a_hostile_picture_reaches_no_page(
    run: Run, library: Path, held: bytes, ending: str
) -> None:
    name = "a" * 64 + ".png"
    (library / "images").mkdir(exist_ok=True)
    (library / "images" / name).write_bytes(held)
    card = json.loads((library / CARD).read_bytes())
    for variant in card["variants"]:
        variant["pictures"] = [{"image": name, "alt": "A heel raise.", "phase": "start"}]
    (library / CARD).write_text(json.dumps(card), encoding="utf-8")
    out = library.parent / f"heel.{ending}"
    answer = run("handout", library / CARD, "-o", out)
    assert answer.status == 1
    assert not out.exists()
    assert answer.err.endswith(
        f"The picture {name} is damaged, too large, or neither PNG nor JPEG; replace it.\n"
    )
