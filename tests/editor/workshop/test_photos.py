"""Photos on their way into a card: upright, small enough, nothing but pixels."""

import io

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from authoring.editor.workshop.photos import LONGEST_SIDE, PhotoProblem, prepared

RED, GREEN = (220, 20, 20), (20, 200, 20)
ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825
"""Tags of the Exif standard (JEITA CP-3451)."""


def two_halves(size: tuple[int, int] = (64, 32)) -> Image.Image:
    """Red on the left, green on the right."""
    picture = Image.new("RGB", size, RED)
    picture.paste(GREEN, (size[0] // 2, 0, size[0], size[1]))
    return picture


def jpeg(picture: Image.Image, orientation: int = 1) -> bytes:
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[MAKER] = "Invented camera"
    exif.get_ifd(GPS)[1] = "N"
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=exif, comment=b"taken at home", quality=95)
    return out.getvalue()


def png(picture: Image.Image) -> bytes:
    info = PngInfo()
    info.add_text("Author", "Somebody")
    out = io.BytesIO()
    picture.save(out, "PNG", pnginfo=info)
    return out.getvalue()


def opened(data: bytes) -> Image.Image:
    picture = Image.open(io.BytesIO(data))
    picture.load()
    return picture


def is_red(colour: object) -> bool:
    assert isinstance(colour, tuple)
    return bool(colour[0] > 150 and colour[1] < 100)


@pytest.mark.parametrize(
    ("orientation", "size", "red_at", "green_at"),
    [
        # What the numbers mean: Exif standard, JEITA CP-3451, "Orientation".
        (1, (64, 32), (5, 16), (58, 16)),
        (3, (64, 32), (58, 16), (5, 16)),
        (6, (32, 64), (16, 5), (16, 58)),
        (8, (32, 64), (16, 58), (16, 5)),
    ],
)
def test_a_photo_stands_as_the_camera_was_held(
    orientation: int, size: tuple[int, int], red_at: tuple[int, int], green_at: tuple[int, int]
) -> None:
    made = opened(prepared(jpeg(two_halves(), orientation), "a.jpg").data)
    assert made.size == size
    assert is_red(made.getpixel(red_at))
    assert not is_red(made.getpixel(green_at))


def test_nothing_but_pixels_is_left_of_a_jpeg() -> None:
    photo = prepared(jpeg(two_halves()), "a.jpg")
    made = opened(photo.data)
    assert photo.ending == "jpg"
    assert dict(made.getexif()) == {}
    assert not {"exif", "comment", "icc_profile", "xmp"} & set(made.info)
    assert b"Invented camera" not in photo.data
    assert b"taken at home" not in photo.data


def test_nothing_but_pixels_is_left_of_a_png() -> None:
    photo = prepared(png(two_halves()), "a.png")
    assert photo.ending == "png"
    assert b"Somebody" not in photo.data
    assert opened(photo.data).getpixel((5, 5)) == RED


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA"])
def test_every_kind_of_png_keeps_its_picture(mode: str) -> None:
    made = opened(prepared(png(two_halves().convert(mode)), "a.png").data)
    assert made.mode in ("RGB", "RGBA")
    assert made.size == (64, 32)


def test_a_png_of_16_bits_keeps_its_grey() -> None:
    grey = Image.new("I;16", (4, 4), 0x8080)
    made = opened(prepared(png(grey), "a.png").data)
    assert made.getpixel((1, 1)) == (0x80, 0x80, 0x80)


def test_what_is_see_through_stays_so() -> None:
    clear = Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    made = opened(prepared(png(clear), "a.png").data)
    assert made.getpixel((3, 3)) == (0, 0, 0, 0)


def test_a_print_photo_in_four_colours_is_turned_into_three() -> None:
    made = opened(prepared(jpeg(two_halves().convert("CMYK")), "a.jpg").data)
    assert made.mode == "RGB"


def test_a_large_photo_is_made_smaller_in_its_own_shape() -> None:
    made = opened(prepared(png(two_halves((4800, 1200))), "a.png").data)
    assert made.size == (LONGEST_SIDE, LONGEST_SIDE // 4)


def encoded(picture: Image.Image, kind: str) -> bytes:
    out = io.BytesIO()
    picture.save(out, kind)
    return out.getvalue()


def moving() -> bytes:
    """A picture of two frames (Animated PNG, W3C PNG Specification, third edition)."""
    out = io.BytesIO()
    two_halves().save(out, "PNG", save_all=True, append_images=[Image.new("RGB", (64, 32))])
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"hello", "a.png is no PNG, JPEG or WebP picture. Save it as one of these first."),
        (b"", "a.png is no PNG, JPEG or WebP picture. Save it as one of these first."),
        (
            encoded(two_halves(), "GIF"),
            "a.png is no PNG, JPEG or WebP picture. Save it as one of these first.",
        ),
        (
            jpeg(two_halves())[:700],
            "a.png is damaged and can't be read. Try another copy of it.",
        ),
        (
            png(two_halves())[:90],
            "a.png is damaged and can't be read. Try another copy of it.",
        ),
        (
            encoded(Image.new("1", (8000, 5001)), "PNG"),
            "a.png has more than 40 million pixels. Make it smaller first.",
        ),
        (
            encoded(Image.new("1", (20_000, 10_000)), "PNG"),
            "a.png has more than 40 million pixels. Make it smaller first.",
        ),
        (
            encoded(Image.new("1", (1, 60_000_000)), "PNG"),
            "a.png has more than 40 million pixels. Make it smaller first.",
        ),
        (moving(), "a.png moves. Save one picture of it first."),
    ],
    ids=["words", "nothing", "gif", "cut jpeg", "cut png", "large", "huge", "tall", "moving"],
)
def test_what_is_no_usable_photo_is_refused_in_one_sentence(data: bytes, sentence: str) -> None:
    with pytest.raises(PhotoProblem) as refused:
        prepared(data, "a.png")
    assert refused.value.sentence == sentence


@pytest.mark.parametrize(("mode", "ending"), [("RGB", "jpg"), ("RGBA", "png")])
def test_a_webp_is_written_as_what_every_program_reads(mode: str, ending: str) -> None:
    picture = two_halves()
    if mode == "RGBA":
        picture.putalpha(128)
    made = prepared(encoded(picture, "WEBP"), "a.webp")
    assert made.ending == ending
    assert opened(made.data).size == (64, 32)


def test_what_hides_behind_a_picture_does_not_come_along() -> None:
    """A file that is a picture and a page, a script or an archive at once."""
    for tail in (b"<script>alert(1)</script>", b"PK\x03\x04 archive", b"%PDF-1.7"):
        for data in (jpeg(two_halves()), png(two_halves())):
            assert tail not in prepared(data + tail, "a.jpg").data


def test_the_name_of_a_file_does_not_decide_what_it_is() -> None:
    assert prepared(jpeg(two_halves()), "a.png").ending == "jpg"
    assert prepared(png(two_halves()), "a.jpg").ending == "png"
