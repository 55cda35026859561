"""Photographs made anew from what was sent: only the picture is kept, none of the file it came in.

What comes in is read by its content, never by its name. What goes out is a JPEG without any metadata, upright, and no
larger than is needed to read a plate.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from io import BytesIO
from threading import Lock

from PIL import Image, ImageOps, UnidentifiedImageError

#: The longest side of what is kept, and of the small one for a list; pixels.
LONGEST, SMALL = 2400, 360
#: More pixels are not even unpacked.
MOST_PIXELS = 50_000_000
LEAST_SIDE = 16
_KINDS = ("JPEG", "PNG", "WEBP")
_QUALITY = 85

#: One at a time: an unpacked picture takes some hundred megabytes.
_BENCH = Lock()

_HEIF = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"heif", b"avif")


class NoPhotograph(Exception):
    """It can't be taken: `why` is heic, pdf, other, broken, small or pixels, or as `scan` says."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


@dataclass(frozen=True, slots=True)
class Remade:
    """`jpeg`, `small`: the same picture in two sizes, as JPEG; `width`, `height` of the larger."""

    jpeg: bytes
    small: bytes
    width: int
    height: int


def remade(data: bytes) -> Remade:
    """The picture alone. Raises NoPhotograph."""
    if not data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")) and not _is_webp(data):
        raise NoPhotograph(_kind_of(data))
    with _BENCH:
        picture = _picture(data)
        small = picture.copy()
        small.thumbnail((SMALL, SMALL))
        return Remade(_jpeg(picture), _jpeg(small), *picture.size)


def is_pdf(data: bytes) -> bool:
    """By its content: the mark stands within the first 1024 bytes, as readers commonly allow."""
    return b"%PDF-" in data[:1024]


def _is_webp(data: bytes) -> bool:
    return data[:4] == b"RIFF" and data[8:12] == b"WEBP"


def _kind_of(data: bytes) -> str:
    if data[4:8] == b"ftyp" and data[8:12] in _HEIF:
        return "heic"
    return "pdf" if is_pdf(data) else "other"


def _picture(data: bytes) -> Image.Image:
    """Upright, in RGB on white, no larger than LONGEST, and with nothing of the file but its pixels."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return _unpacked(data)
    except Image.DecompressionBombError:
        raise NoPhotograph("pixels") from None
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, EOFError, IndexError, OverflowError):
        raise NoPhotograph("broken") from None


def _unpacked(data: bytes) -> Image.Image:
    with Image.open(BytesIO(data), formats=_KINDS) as found:
        _check_size(*found.size)
        found.draft("RGB", (LONGEST, LONGEST))
        found.load()
        upright = ImageOps.exif_transpose(found)
        upright.thumbnail((LONGEST, LONGEST))
        picture = Image.new("RGB", upright.size, "white")
        shown = upright.convert("RGBA")
        picture.paste(shown, mask=shown.getchannel("A"))
        return picture


def _check_size(width: int, height: int) -> None:
    if width * height > MOST_PIXELS:
        raise NoPhotograph("pixels")
    if min(width, height) < LEAST_SIDE:
        raise NoPhotograph("small")


def _jpeg(picture: Image.Image) -> bytes:
    into = BytesIO()
    picture.save(into, "JPEG", quality=_QUALITY, optimize=True)
    return into.getvalue()
