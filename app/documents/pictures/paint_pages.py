"""Paints the pages of a PDF, in a process of its own that can do nothing else: bytes in, pictures out.

Run by its path, so it knows nothing of the desk. No form is filled and no script run; a file that wants too much memory
or time ends this process alone. It writes `ok` and each page as a JPEG with its length before it, or why it can't:
`broken`, `locked`, `pages`, `page`.
"""

from __future__ import annotations

import struct
import sys
from collections.abc import Iterator
from io import BytesIO

import pypdfium2

#: Bytes of memory, and seconds of the processor.
MEMORY, SECONDS = 2 * 1024**3, 20

#: No finer than this, in pixels for each point of 1/72 inch: 300 to the inch, as a scanner has it.
FINEST = 300 / 72
_QUALITY = 95

#: What PDFium says of a file that only opens with a password.
_LOCKED = "password"


class Unpainted(Exception):
    """Why no picture can be made."""


def main(most: int, longest: int, least: int) -> None:
    """Of up to `most` pages pictures of which the longest side has `longest` pixels, and none fewer than `least`."""
    _bind()
    out = sys.stdout.buffer
    try:
        pages = [*_pages(sys.stdin.buffer.read(), most, longest, least)]
    except Unpainted as why:
        out.write(str(why).encode())
        return
    out.write(b"ok" + b"".join(struct.pack(">I", len(page)) + page for page in pages))


def _bind() -> None:
    """Where the system knows no such limits, whoever waits for this process still ends it."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _pages(data: bytes, most: int, longest: int, least: int) -> Iterator[bytes]:
    try:
        document = pypdfium2.PdfDocument(data)
        count = len(document)
        if count > most:
            raise Unpainted("pages")
        if not count:
            raise Unpainted("broken")
        for place in range(count):
            yield _painted(document[place], longest, least)
    except pypdfium2.PdfiumError as error:
        raise Unpainted("locked" if _LOCKED in str(error).lower() else "broken") from None


def _painted(page: pypdfium2.PdfPage, longest: int, least: int) -> bytes:
    """However large the page calls itself, it is painted no larger than is kept."""
    sides = page.get_size()
    if min(sides) <= 0:
        raise Unpainted("page")
    scale = min(longest / max(sides), FINEST)
    if min(sides) * scale < least:
        raise Unpainted("page")
    picture = page.render(scale=scale, may_draw_forms=False).to_pil().convert("RGB")
    into = BytesIO()
    picture.save(into, "JPEG", quality=_QUALITY)
    return into.getvalue()


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
