"""Reads a finished paper back: its text, its boxes, its codes."""

from __future__ import annotations

import re
from io import BytesIO

import pikepdf
import pypdfium2 as pdfium
import zxingcpp


def pages(data: bytes) -> list[str]:
    """The text of every page, lines joined by single spaces."""
    document = pdfium.PdfDocument(data)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def whole(data: bytes) -> str:
    return " ".join(pages(data))


def figures(data: bytes) -> str:
    """All that the file holds: its text with nothing between the figures of a sum, and every byte of it unpacked."""
    with pikepdf.open(BytesIO(data)) as document:
        streams = b"".join(one.read_bytes() for one in document.objects if isinstance(one, pikepdf.Stream))
        plain = BytesIO()
        document.save(plain, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.all)
    said = re.sub(r"(?<=\d)[.,\u00a0\u202f’](?=\d)", "", whole(data))
    return said + (streams + plain.getvalue()).decode("latin-1")


def codes(data: bytes, dpi: int = 200) -> list[str]:
    """What the codes on page one say, rendered at `dpi`."""
    image = pdfium.PdfDocument(data)[0].render(scale=dpi / 72).to_pil()
    return [code.text for code in zxingcpp.read_barcodes(image)]


def characters_outside(data: bytes, margin: float) -> list[str]:
    """Characters whose box comes nearer to the edge of the sheet than `margin` points."""
    stray = []
    for page in pdfium.PdfDocument(data):
        width, height = page.get_size()
        text = page.get_textpage()
        for i in range(text.count_chars()):
            left, bottom, right, top = text.get_charbox(i)
            inside = margin <= left and right <= width - margin and margin <= bottom and top <= height - margin
            if right > left and not inside:
                stray.append(text.get_text_range(i, 1))
    return stray


def faults(data: bytes) -> list[str]:
    with pikepdf.open(BytesIO(data)) as document:
        return list(document.check_pdf_syntax())


def fonts(data: bytes) -> dict[str, bool]:
    """Every font of the paper → whether a TrueType file of it is embedded."""
    with pikepdf.open(BytesIO(data)) as document:
        found = {}
        for page in document.pages:
            for font in page.Resources.get("/Font", {}).values():
                descriptor = font.get("/FontDescriptor")
                found[str(font.BaseFont)] = descriptor is not None and "/FontFile2" in descriptor
        return found


def reach(data: bytes, sheet: int) -> float:
    """How far down its sheet the text goes, 0 at the upper edge and 1 at the lower; the title block apart."""
    document = pdfium.PdfDocument(data)
    page = document[sheet % len(document)]
    height, text = page.get_height(), page.get_textpage()
    feet = (text.get_rect(place)[1] for place in range(text.count_rects()))
    return float(1 - min(foot for foot in feet if foot > TITLE_BLOCK) / height)


#: Points from the lower edge below which only the title block stands: 10 mm of edge, 12.5 mm of block.
TITLE_BLOCK = 66
