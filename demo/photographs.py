"""The demo's photographs: drawn here, of nothing that there is. A plate, a page of the works' book, a car, a part."""

from __future__ import annotations

from io import BytesIO
from random import Random

from PIL import Image, ImageDraw, ImageFilter, ImageFont

from app.domain.quotations.photograph import Shows

_SIZE = (900, 675)
_METAL, _DARK, _PAPER, _RUST = (168, 170, 164), (44, 46, 48), (232, 224, 200), (120, 72, 44)


def picture(shows: Shows, words: str) -> bytes:
    """A JPEG; the same for the same words."""
    chance = Random(f"{shows.value} {words}")  # noqa: S311 - it draws rivets, not secrets
    image = Image.new("RGB", _SIZE, _ground(chance))
    draw = ImageDraw.Draw(image)
    _DRAWN[shows](draw, words, chance)
    _grain(draw, chance)
    into = BytesIO()
    image.filter(ImageFilter.GaussianBlur(1.1)).save(into, "JPEG", quality=80)
    return into.getvalue()


def _ground(chance: Random) -> tuple[int, int, int]:
    shade = chance.randint(70, 110)
    return shade, shade - 6, shade - 14


def _plate(draw: ImageDraw.ImageDraw, words: str, chance: Random) -> None:
    draw.rounded_rectangle((130, 190, 770, 490), 26, fill=_METAL, outline=_DARK, width=5)
    for x, y in ((165, 225), (735, 225), (165, 455), (735, 455)):
        draw.ellipse((x - 13, y - 13, x + 13, y + 13), fill=(205, 205, 198), outline=_DARK, width=3)
    _centred(draw, "TARN MOTOR COMPANY", 250, 34)
    _centred(draw, words, 330, 92)
    for _ in range(chance.randint(3, 6)):
        x, y = chance.randint(140, 740), chance.randint(200, 470)
        draw.line((x, y, x + chance.randint(20, 90), y + chance.randint(-16, 16)), fill=(140, 142, 136), width=2)


def _page(draw: ImageDraw.ImageDraw, words: str, chance: Random) -> None:
    draw.polygon(((150, 60), (770, 90), (740, 640), (120, 610)), fill=_PAPER, outline=_DARK)
    _centred(draw, "Works book", 120, 40)
    for row in range(9):
        y = 210 + 42 * row
        draw.line((190, y + 30, 700, y + 38), fill=(150, 146, 130), width=2)
        draw.line((200, y + 12, 200 + chance.randint(160, 440), y + 16), fill=(70, 74, 110), width=4)
    _centred(draw, words, 380, 46)


def _car(draw: ImageDraw.ImageDraw, words: str, _: Random) -> None:
    draw.rectangle((0, 470, 900, 675), fill=(96, 98, 92))
    body = ((90, 460), (110, 390), (310, 350), (420, 270), (600, 268), (690, 350), (820, 380), (830, 460))
    draw.polygon(body, fill=(86, 104, 92), outline=_DARK)
    draw.polygon(((430, 285), (350, 350), (640, 350), (590, 285)), fill=(150, 164, 170), outline=_DARK)
    for x in (240, 690):
        draw.ellipse((x - 68, 398, x + 68, 534), fill=_DARK)
        draw.ellipse((x - 34, 432, x + 34, 500), fill=_METAL)
    _centred(draw, words, 590, 34, fill=(230, 230, 224))


def _part(draw: ImageDraw.ImageDraw, words: str, chance: Random) -> None:
    draw.polygon(((120, 470), (180, 210), (720, 230), (790, 480)), fill=(128, 122, 112), outline=_DARK)
    draw.polygon(((200, 430), (235, 270), (665, 285), (710, 440)), fill=(98, 94, 88), outline=_DARK)
    for _ in range(14):
        x, y, wide = chance.randint(140, 740), chance.randint(230, 460), chance.randint(8, 38)
        draw.ellipse((x, y, x + wide, y + wide // 2), fill=_RUST)
    draw.rectangle((110, 560, 790, 600), fill=(214, 190, 96), outline=_DARK)
    for x in range(110, 791, 34):
        draw.line((x, 560, x, 580), fill=_DARK, width=2)
    _centred(draw, words, 90, 40, fill=(230, 230, 224))


_DRAWN = {Shows.PLATE: _plate, Shows.RECORD: _page, Shows.CAR: _car, Shows.PART: _part}


def _centred(draw: ImageDraw.ImageDraw, words: str, y: int, size: int, fill: tuple[int, int, int] = _DARK) -> None:
    draw.text((_SIZE[0] / 2, y), words, font=ImageFont.load_default(size), fill=fill, anchor="ma")


def _grain(draw: ImageDraw.ImageDraw, chance: Random) -> None:
    """So that it looks taken, and not printed."""
    for _ in range(1200):
        shade = chance.randint(60, 190)
        draw.point((chance.randrange(_SIZE[0]), chance.randrange(_SIZE[1])), fill=(shade, shade, shade))
