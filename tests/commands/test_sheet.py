"""``rungbook sheet`` shows every picture there is, with where it is used."""

from __future__ import annotations

import base64
import io
import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from authoring import resources
from authoring.commands.sheet_cells import HEADINGS, region_of, sheet_of
from authoring.files.poses import stock_poses
from authoring.model.vocabulary import Region
from tests.commands.conftest import EXAMPLE, Run, told

MOST_PNG_BYTES = 1_500_000


def files(folder: Path, ending: str) -> dict[str, dict[str, Any]]:
    """What the JSON files of a folder say, by short name, read without the program."""
    read = (json.loads(path.read_text("utf-8")) for path in sorted(folder.glob(f"*.{ending}.json")))
    return {each["slug"]: each for each in read}


class Reader(HTMLParser):
    """Headings, short names and pictures of a page, as a browser finds them."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.headings: list[str] = []
        self.cells: list[str] = []
        self.labels: list[str | None] = []
        self.addresses: list[str] = []
        self._into: list[str] | None = None
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        facts = dict(attrs)
        if tag == "svg":
            self.labels.append(facts.get("aria-label"))
        self.addresses += [facts[name] or "" for name in ("src", "href") if name in facts]
        self._into = {"h2": self.headings, "code": self.cells}.get(tag)

    def handle_data(self, data: str) -> None:
        if self._into is not None:
            self._into.append(data)
            self._into = None


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> str:
    from authoring.cli import main

    out = tmp_path_factory.mktemp("sheet") / "sheet.html"
    assert main(["sheet", str(EXAMPLE), "-o", str(out)]) == 0
    return out.read_text("utf-8")


def test_every_stock_pose_stands_on_the_page_once_with_each_of_its_moments(page: str) -> None:
    poses = files(resources.stock_illustrations(), "pose")
    read = Reader(page)
    assert sorted(read.cells) == sorted(poses)
    assert len(read.labels) == sum(len(pose["phases"]) for pose in poses.values())
    assert all(read.labels)


def test_each_pose_names_every_card_that_shows_it_and_no_other(page: str) -> None:
    cards = files(EXAMPLE / "cards", "card")
    cells = re.findall(r"<code>([^<]*)</code>.*?</p><p>([^<]*)</p></li>", page)
    for slug, words in cells:
        named = f'"pose": "{slug}"'
        using = [str(card["title"]) for card in cards.values() if named in json.dumps(card)]
        shown = [] if words == "In no card" else words.removeprefix("In ").split(", ")
        assert sorted(shown) == sorted(", ".join(using).split(", ") if using else [])


def test_page_needs_nothing_but_itself(page: str) -> None:
    assert "<script" not in page
    assert Reader(page).addresses == []
    assert set(re.findall(r"https?://[^\"'<]*", page)) == {"http://www.w3.org/2000/svg"}


def test_headings_run_from_the_foot_up(page: str) -> None:
    names = [re.sub(r" \(\d+\)$", "", heading) for heading in Reader(page).headings]
    assert names == [name for name in HEADINGS if name in names]
    assert len(names) >= 6


def test_every_region_has_one_heading() -> None:
    listed = [region for regions in HEADINGS.values() for region in regions]
    assert sorted(listed) == sorted(Region)


@pytest.mark.parametrize(
    ("slug", "region"),
    [  # Common practice, no source: what a physiotherapist calls each exercise one for.
        ("knee-extension-cuff", Region.KNEE),
        ("wrist-curl-palm-up", Region.WRIST_HAND),
        ("neck-turn", Region.NECK),
        ("cat-camel", Region.LOWER_BACK),
        ("side-raise", Region.SHOULDER),
        ("four-point", Region.WHOLE_BODY),
    ],
)
def test_a_pose_in_no_card_stands_with_the_joint_that_moves(slug: str, region: Region) -> None:
    assert region_of(stock_poses()[slug]) is region


def test_image_shows_them_all_and_is_small_enough_to_send(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "sheet.png"
    assert run("sheet", EXAMPLE, "-o", out).out == f"{out}\n"
    data = out.read_bytes()
    assert len(data) < MOST_PNG_BYTES
    with Image.open(io.BytesIO(data)) as image:
        assert image.width == 1800
        grey = image.convert("L")
    rows = range(60, grey.height - 40, 260)  # more than a heading and the row below it
    assert all(grey.crop((0, y, 1800, y + 260)).getextrema()[0] < 90 for y in rows)  # type: ignore[operator]


def test_photo_of_a_card_stands_in_the_page_itself(run: Run, library: Path, tmp_path: Path) -> None:
    name = next((library / "images").glob("*.png"))
    path = library / "cards" / "heel-raise.card.json"
    card = json.loads(path.read_text("utf-8"))
    card["variants"][0]["pictures"] = [{"image": name.name, "alt": "A photo."}]
    path.write_text(json.dumps(card), "utf-8")
    out = tmp_path / "sheet.html"
    assert run("sheet", library, "-o", out).status == 0
    (address,) = Reader(out.read_text("utf-8")).addresses
    assert base64.b64decode(address.partition("base64,")[2]) == name.read_bytes()


@pytest.mark.parametrize(
    ("slug", "heading"),
    [
        ("bird-dog", "Back and trunk"),
        ("dead-bug", "Back and trunk"),
        ("hip-flexor-stretch", "Hip"),
        ("doorway-stretch", "Shoulder"),
        ("neck-hold-forward", "Neck"),
    ],
)
def test_a_pose_that_names_its_region_stands_there_whatever_joint_moves_most(
    slug: str, heading: str
) -> None:
    """What each is given for is common practice, no source."""
    cells = sheet_of(EXAMPLE).groups[heading]
    assert slug in {cell.slug for cell in cells}


def test_pose_that_cannot_be_drawn_is_named_and_the_others_are_shown(
    run: Run, library: Path, tmp_path: Path
) -> None:
    pose = json.loads((resources.stock_illustrations() / "bridge.pose.json").read_text("utf-8"))
    pose |= {"id": "00000000-0000-4000-8000-000000000777", "slug": "too-far"}
    pose["contacts"] = [{"point": "heel", "on": "cloud"}]
    (library / "poses").mkdir(exist_ok=True)
    (library / "poses" / "too-far.pose.json").write_text(json.dumps(pose), "utf-8")
    answer = run("sheet", library, "-o", tmp_path / "sheet.html")
    assert answer.status == 1
    assert re.fullmatch(r"rungbook: too-far: [A-Z][^\n]*\.\n", answer.err)
    assert "<code>bridge</code>" in (tmp_path / "sheet.html").read_text("utf-8")


def test_other_endings_are_refused(run: Run, tmp_path: Path) -> None:
    answer = run("sheet", EXAMPLE, "-o", tmp_path / "sheet.gif")
    assert answer.status == 2
    assert told(answer).endswith("a contact sheet is a .html or .png file; name one that ends so.")
    assert list(tmp_path.glob("sheet*")) == []


def test_folder_that_is_no_library_is_refused(run: Run, tmp_path: Path) -> None:
    answer = run("sheet", tmp_path, "-o", tmp_path / "sheet.html")
    assert answer.status == 2
    assert told(answer)
