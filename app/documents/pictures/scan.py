"""Scans that come as PDF: each page made anew as a picture, and none of the file kept.

Whatever stands in it beside its pages (scripts, actions, files that hang on) is looked at by nobody here.
"""

from __future__ import annotations

import struct
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from threading import Lock

from app.documents.pictures import photograph
from app.documents.pictures.photograph import NoPhotograph, Remade, remade

#: More are no scan of a record or a rubbing.
MOST_PAGES = 12

#: How long anybody waits for it.
SECONDS = 40

_PAINTER = Path(__file__).with_name("paint_pages.py")

#: One at a time, as with photographs.
_BENCH = Lock()

_SAID = (b"broken", b"locked", b"pages", b"page")


def pages_of(data: bytes) -> tuple[Remade, ...]:
    """Every page. Raises NoPhotograph: scan-broken, -locked, -pages (too many), -page (nothing to read), -slow."""
    with _BENCH:
        painted = _paint(data)
    if not painted.startswith(b"ok"):
        raise NoPhotograph(f"scan-{painted.decode()}" if painted in _SAID else "scan-slow")
    return tuple(map(remade, _each(painted[2:])))


def _paint(data: bytes) -> bytes:
    """What the painter wrote; nothing where it was ended."""
    limits = (MOST_PAGES, photograph.LONGEST, photograph.LEAST_SIDE)
    command = [sys.executable, "-I", str(_PAINTER), *map(str, limits)]
    try:
        done = subprocess.run(  # noqa: S603 - a command of our own
            command, input=data, capture_output=True, timeout=SECONDS, env={}, check=False
        )
        return done.stdout
    except subprocess.TimeoutExpired:
        return b""


def _each(painted: bytes) -> Iterator[bytes]:
    while painted:
        (size,) = struct.unpack(">I", painted[:4])
        yield painted[4 : 4 + size]
        painted = painted[4 + size :]
