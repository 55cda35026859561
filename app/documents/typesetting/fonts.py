"""The faces the papers are set in, and where they lie. It installs nothing and never falls back to a face unasked.

A sans with real bold, figures of one width, Latin, Greek and Cyrillic: static TrueType from the package registry, for
reportlab takes no CFF outlines and draws no weight axis.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

#: Where `npm ci` in frontend/ lays the packages.
FOLDER = Path(__file__).resolve().parents[3] / "frontend" / "node_modules"

TEXT = "Paper"
BOLD = "Paper-Bold"
ITALIC = "Paper-Italic"
BOLD_ITALIC = "Paper-BoldItalic"

_FAMILY = "@expo-google-fonts/source-sans-3"
FILES: Mapping[str, str] = {
    TEXT: f"{_FAMILY}/400Regular/SourceSans3_400Regular.ttf",
    BOLD: f"{_FAMILY}/700Bold/SourceSans3_700Bold.ttf",
    ITALIC: f"{_FAMILY}/400Regular_Italic/SourceSans3_400Regular_Italic.ttf",
    BOLD_ITALIC: f"{_FAMILY}/700Bold_Italic/SourceSans3_700Bold_Italic.ttf",
}

#: Stands for a character that the face lacks, so that a gap is seen rather than swallowed.
MISSING = "\N{WHITE SQUARE}"


@dataclass(frozen=True)
class FontsMissing(Exception):
    """The papers' fonts are not where they are looked for."""

    folder: Path
    files: tuple[str, ...]

    def __str__(self) -> str:
        return (
            f"The papers can't be set: {', '.join(self.files)} not found in {self.folder}. "
            "Lay the packages of frontend/package.json there (`make` does it), or name the folder they were laid in."
        )


class Face(TTFont):
    """A face that looks no plain letter up: each stands at its own place among the first glyphs of every paper."""

    def splitString(self, text: str, doc: object, encoding: str = "utf-8") -> list[tuple[int, bytes]]:  # noqa: N802
        if text.isascii() and text.isprintable() and doc in self.state:
            return [(0, text.encode())] if text else []
        return list(super().splitString(text, doc, encoding))


@cache
def register(folder: Path = FOLDER) -> None:
    """Make the faces known to reportlab; FontsMissing names every file that isn't there."""
    absent = tuple(file for file in FILES.values() if not (folder / file).is_file())
    if absent:
        raise FontsMissing(folder, absent)
    for name, file in FILES.items():
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(Face(name, str(folder / file)))
    pdfmetrics.registerFontFamily(TEXT, normal=TEXT, bold=BOLD, italic=ITALIC, boldItalic=BOLD_ITALIC)


#: Everything that ends a line or a page somewhere ends a line here; a tab is a space.
_ENDS = str.maketrans(dict.fromkeys("\r\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029", "\n") | {"\t": " "})


def printable(text: str) -> str:
    """The text as it can be set: marks joined to their letters, MISSING for what the face lacks. Needs `register`."""
    if text.isascii() and text.isprintable():
        return text
    known = pdfmetrics.getFont(TEXT).face.charToGlyph  # type: ignore[attr-defined]
    composed = unicodedata.normalize("NFC", text.replace("\r\n", "\n").translate(_ENDS))
    return "".join(c if c == "\n" or ord(c) in known else _stand_in(c) for c in composed)


def _stand_in(character: str) -> str:
    """Nothing for what has no shape of its own (controls, joiners, variation selectors), else MISSING."""
    return "" if unicodedata.category(character) in ("Cc", "Cf", "Mn") else MISSING
