"""Photographs made anew: upright, small enough, as JPEG, with nothing of the file they came in; or refused with why.

Outside: Pillow writes what comes in and reads back what goes out; EXIF tags by their numbers in the standard (0x0112
orientation, 0x8825 GPS). The heads of HEIC and PDF files are those of ISO/IEC 23008-12 and ISO 32000.
"""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from app.documents.pictures import photograph
from app.documents.pictures.photograph import LONGEST, SMALL, NoPhotograph, remade

ORIENTATION, GPS = 0x0112, 0x8825


def file(kind: str, size: tuple[int, int] = (600, 400), mode: str = "RGB", **more: object) -> bytes:
    """The left half red, the right half green."""
    picture = Image.new(mode, size, (0, 160, 0) if mode == "RGB" else (0, 160, 0, 255))
    picture.paste((200, 0, 0) if mode == "RGB" else (200, 0, 0, 255), (0, 0, size[0] // 2, size[1]))
    into = BytesIO()
    picture.save(into, kind, **more)
    return into.getvalue()


def with_place(orientation: int) -> bytes:
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif.get_ifd(GPS).update({1: "N", 2: (53.0, 58.0, 12.0)})
    return file("JPEG", exif=exif, comment=b"taken at home")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_of_each_kind_comes_out_as_a_jpeg_of_its_size(kind: str) -> None:
    made = remade(file(kind))
    with Image.open(BytesIO(made.jpeg)) as seen:
        assert (seen.format, seen.size, (made.width, made.height)) == ("JPEG", (600, 400), (600, 400))
    with Image.open(BytesIO(made.small)) as seen:
        assert (seen.format, max(seen.size)) == ("JPEG", SMALL)


def test_place_comment_and_all_else_beside_the_picture_are_gone() -> None:
    sent = with_place(1)
    assert b"taken at home" in sent
    for made in (remade(sent).jpeg, remade(sent).small):
        assert b"Exif" not in made
        assert b"taken at home" not in made
        with Image.open(BytesIO(made)) as seen:
            assert dict(seen.getexif()) == {}
            assert not {"exif", "comment", "icc_profile", "xmp"} & set(seen.info)


def test_what_lies_on_its_side_is_put_upright() -> None:
    made = remade(with_place(6))  # 6: turn a quarter to the right
    assert (made.width, made.height) == (400, 600)
    with Image.open(BytesIO(made.jpeg)) as seen:
        red = seen.getpixel((200, 100))
    assert isinstance(red, tuple)
    assert red[0] > 150 > red[1]


def test_what_hangs_on_behind_the_picture_does_not_come_along() -> None:
    assert b"<script>" not in remade(file("PNG") + b"<script>alert(1)</script>").jpeg


def test_a_large_picture_is_made_smaller_and_a_clear_one_stands_on_white() -> None:
    assert (remade(file("JPEG", (4800, 1200))).width, LONGEST) == (2400, 2400)
    clear = BytesIO()
    Image.new("RGBA", (40, 40), (0, 0, 0, 0)).save(clear, "PNG")
    with Image.open(BytesIO(remade(clear.getvalue()).jpeg)) as seen:
        assert seen.getpixel((5, 5)) == (255, 255, 255)


# what is sent → why it can't be taken
@pytest.mark.parametrize(
    ("sent", "why"),
    [
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "heic"),
        (b"%PDF-1.7\n", "pdf"),
        (file("GIF"), "other"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "other"),
        (b"", "other"),
        (file("JPEG")[:400], "broken"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 40, "broken"),
        (file("PNG", (8, 900)), "small"),
    ],
)
def test_what_is_no_photograph_is_refused_with_why(sent: bytes, why: str) -> None:
    with pytest.raises(NoPhotograph) as refused:
        remade(sent)
    assert refused.value.why == why


def test_too_many_pixels_are_refused_before_they_are_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photograph, "MOST_PIXELS", 600 * 400 - 1)
    with pytest.raises(NoPhotograph) as refused:
        remade(file("PNG"))
    assert refused.value.why == "pixels"
