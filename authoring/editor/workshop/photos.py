"""Photos for a card: read, turned upright, made free of metadata. No Qt here."""

from __future__ import annotations

import io

from attrs import frozen
from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from authoring.editor.i18n import tr

MOST_PIXELS = 40_000_000
"""Larger photos than any camera's of the trade are refused before they are unpacked."""

LONGEST_SIDE = 2400
"""Pixels of the longer side that are kept: enough for a full page at 200 dots an inch."""

_KINDS = {"PNG": "png", "JPEG": "jpg", "WEBP": "png"}
"""What is read, and how it is written: other programs of a clinic seldom read WebP."""
_BOMBS = (Image.DecompressionBombError, Image.DecompressionBombWarning)


class PhotoProblem(ValueError):  # noqa: N818 - shown to people: one sentence
    """A photo that can't be used; ``sentence`` says why and what to do."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@frozen
class Photo:
    """A photo that can go into a library: its bytes, and "png" or "jpg"."""

    data: bytes
    ending: str


def prepared(data: bytes, name: str) -> Photo:
    """A photo from the bytes of a PNG, JPEG or WebP file, written anew from its pixels alone.

    Turned as its camera says, at most 2400 pixels long, colours in sRGB; place, time, camera
    and everything else that is no pixel is gone.

    Args:
        name: what the file is called, for sentences.

    Raises:
        PhotoProblem: no picture, another kind of one, one that moves, or too large.
    """
    try:
        with Image.open(io.BytesIO(data), formats=tuple(_KINDS)) as opened:
            kind = opened.format or ""
            if opened.width * opened.height > MOST_PIXELS:
                raise _too_large(name)
            if getattr(opened, "n_frames", 1) > 1:
                raise PhotoProblem(tr("{name} moves. Save one picture of it first.", name=name))
            plain = kind == "WEBP" and "A" not in opened.getbands()
            return _written(opened, "jpg" if plain else _KINDS[kind])
    except UnidentifiedImageError:
        raise PhotoProblem(
            tr("{name} is no PNG, JPEG or WebP picture. Save it as one of these first.", name=name)
        ) from None
    except _BOMBS:
        raise _too_large(name) from None
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        if isinstance(error, PhotoProblem):
            raise
        raise PhotoProblem(
            tr("{name} is damaged and can't be read. Try another copy of it.", name=name)
        ) from error


def _too_large(name: str) -> PhotoProblem:
    return PhotoProblem(
        tr("{name} has more than 40 million pixels. Make it smaller first.", name=name)
    )


def _written(opened: Image.Image, ending: str) -> Photo:
    picture = _in_srgb(ImageOps.exif_transpose(opened))
    picture.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    clean = Image.new(picture.mode, picture.size)
    clean.paste(picture)
    out = io.BytesIO()
    if ending == "jpg":
        clean.save(out, "JPEG", quality=88, optimize=True)
    else:
        clean.save(out, "PNG", optimize=True)
    return Photo(out.getvalue(), ending)


def _in_srgb(picture: Image.Image) -> Image.Image:
    """Plain colours, so that leaving the profile out does not change how they look."""
    see_through = "A" in picture.getbands() or "transparency" in picture.info
    plain = "RGBA" if see_through else "RGB"
    profile = picture.info.get("icc_profile")
    if profile and picture.mode in ("RGB", "L", "CMYK"):
        try:
            turned = ImageCms.profileToProfile(
                picture,
                ImageCms.ImageCmsProfile(io.BytesIO(profile)),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
        except (ImageCms.PyCMSError, OSError):
            turned = None
        if turned is not None:
            return turned
    if picture.mode.startswith("I"):
        # 16 bits a pixel: plain conversion would cut them off at 255.
        picture = picture.convert("I").point(lambda value: value * (1 / 257)).convert("L")
    return picture if picture.mode == plain else picture.convert(plain)
