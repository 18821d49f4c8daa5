"""Logos come in as plain pixels, whatever the file carried."""

import io
from pathlib import Path

import pytest
from PIL import ExifTags, Image

from authoring.editor.clinic_room.logo_file import MOST_BYTES, read_logo
from authoring.editor.workers import Stopped, Token
from authoring.editor.workshop.photos import PhotoProblem
from tests.editor.page_jobs import idle


def picture(kind: str, size: tuple[int, int] = (60, 40), **more: object) -> bytes:
    out = io.BytesIO()
    image = Image.new("RGB", size, "white")
    image.paste("navy", (0, 0, size[0] // 2, size[1]))
    image.save(out, kind, **more)
    return out.getvalue()


@pytest.mark.parametrize(("kind", "ending"), [("PNG", "png"), ("JPEG", "jpg"), ("WEBP", "png")])
def test_the_usual_kinds_are_taken(kind: str, ending: str, tmp_path: Path) -> None:
    path = tmp_path / "logo"
    path.write_bytes(picture(kind, quality=95))
    photo = read_logo(path, idle())
    assert photo.ending == ending
    with Image.open(io.BytesIO(photo.data)) as image:
        assert image.size == (60, 40)
        red, green, blue = image.convert("RGB").getpixel((5, 5))
        assert (red < 20, green < 20, abs(blue - 128) < 20) == (True, True, True)


@pytest.mark.parametrize("kind", ["JPEG", "WEBP"])
def test_place_camera_and_time_are_taken_out(kind: str) -> None:
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Camera"
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitudeRef] = "N"
    data = picture(kind, exif=exif.tobytes())
    assert b"Camera" in data
    photo = read_logo(data, idle())
    assert b"Camera" not in photo.data
    with Image.open(io.BytesIO(photo.data)) as image:
        assert not image.getexif()
        assert not image.info.keys() & {"exif", "icc_profile", "xmp", "comment"}


def test_a_clear_background_stays_clear() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (10, 10), (0, 0, 0, 0)).save(out, "WEBP", lossless=True)
    with Image.open(io.BytesIO(read_logo(out.getvalue(), idle()).data)) as image:
        assert image.convert("RGBA").getpixel((5, 5))[3] == 0


def test_a_large_picture_is_made_smaller() -> None:
    photo = read_logo(picture("WEBP", (5000, 1000)), idle())
    with Image.open(io.BytesIO(photo.data)) as image:
        assert max(image.size) <= 2400


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_too_many_pixels_are_refused(kind: str) -> None:
    size = (8000, 5001) if kind == "PNG" else (16000, 2501)
    data = picture(kind, size)
    with pytest.raises(PhotoProblem) as caught:
        read_logo(data, idle())
    assert caught.value.sentence == (
        "The picture has more than 40 million pixels. Make it smaller first."
    )


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"GIF89a", "logo.gif is no PNG, JPEG or WebP picture. Save it as one of these first."),
        (b"", "logo.gif is no PNG, JPEG or WebP picture. Save it as one of these first."),
        (
            b"RIFF\x10\x00\x00\x00WEBPVP8 nothing",
            "logo.gif is damaged and can't be read. Try another copy of it.",
        ),
    ],
)
def test_what_is_no_picture_is_refused_in_a_sentence(
    data: bytes, sentence: str, tmp_path: Path
) -> None:
    path = tmp_path / "logo.gif"
    path.write_bytes(data)
    with pytest.raises(PhotoProblem) as caught:
        read_logo(path, idle())
    assert caught.value.sentence == sentence


def test_a_cut_off_picture_is_refused() -> None:
    with pytest.raises(PhotoProblem, match="damaged"):
        read_logo(picture("WEBP", (400, 400))[:-60], idle())


def test_a_file_that_is_gone_is_said_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(PhotoProblem) as caught:
        read_logo(tmp_path / "gone.png", idle())
    assert caught.value.sentence == "gone.png can't be read: No such file or directory."


def test_a_huge_file_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "huge.png"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    with pytest.raises(PhotoProblem, match="larger than 60 megabytes"):
        read_logo(path, idle())


def test_reading_stops_where_it_is_not_wanted_any_more() -> None:
    token = Token(lambda _done, _of: None)
    token.stop()
    with pytest.raises(Stopped):
        read_logo(picture("PNG"), token)
