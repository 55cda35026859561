"""The faces the papers are set in, and where they lie. It installs nothing and never falls back to a face unasked.

A condensed sans with real bold and figures of one width; characters that it lacks (Greek names, say) come from a second
face. Both are static TrueType from the package registry: reportlab takes no CFF outlines and draws no weight axis.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

#: Where `npm ci` in frontend/ lays the packages.
FOLDER = Path(__file__).resolve().parents[2] / "frontend" / "node_modules"

TEXT = "Paper"
BOLD = "Paper-Bold"
ITALIC = "Paper-Italic"
BOLD_ITALIC = "Paper-BoldItalic"
OTHER = "Paper-Other"
OTHER_BOLD = "Paper-Other-Bold"

_PLEX = "@expo-google-fonts/ibm-plex-sans-condensed"
FILES: Mapping[str, str] = {
    TEXT: f"{_PLEX}/400Regular/IBMPlexSansCondensed_400Regular.ttf",
    BOLD: f"{_PLEX}/700Bold/IBMPlexSansCondensed_700Bold.ttf",
    ITALIC: f"{_PLEX}/400Regular_Italic/IBMPlexSansCondensed_400Regular_Italic.ttf",
    BOLD_ITALIC: f"{_PLEX}/700Bold_Italic/IBMPlexSansCondensed_700Bold_Italic.ttf",
    OTHER: "dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf",
    OTHER_BOLD: "dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf",
}

#: Stands for a character that neither face has.
MISSING = "\N{REPLACEMENT CHARACTER}"
#: Spaces that locale data use and the face lacks.
_SPACES = {0x202F: 0xA0, 0x2009: 0xA0}


@dataclass(frozen=True)
class FontsMissing(Exception):
    """The papers' fonts are not where they are looked for."""

    folder: Path
    files: tuple[str, ...]

    def __str__(self) -> str:
        return (
            f"The papers can't be set: {', '.join(self.files)} not found in {self.folder}. "
            "Run `make install`, or give the folder into which `npm ci` laid the font packages."
        )


def register(folder: Path = FOLDER) -> None:
    """Make the faces known to reportlab; FontsMissing names every file that isn't there."""
    absent = tuple(file for file in FILES.values() if not (folder / file).is_file())
    if absent:
        raise FontsMissing(folder, absent)
    for name, file in FILES.items():
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, str(folder / file)))
    pdfmetrics.registerFontFamily(TEXT, normal=TEXT, bold=BOLD, italic=ITALIC, boldItalic=BOLD_ITALIC)
    pdfmetrics.registerFontFamily(OTHER, normal=OTHER, bold=OTHER_BOLD, italic=OTHER, boldItalic=OTHER_BOLD)


def runs(text: str) -> tuple[tuple[str, bool], ...]:
    """The text in pieces; True where a piece must be set in the second face. Needs `register` first."""
    pieces: list[tuple[str, bool]] = []
    for character in text.translate(_SPACES):
        other = not _has(TEXT, character)
        shown = character if not other or _has(OTHER, character) else MISSING
        if pieces and pieces[-1][1] is other:
            pieces[-1] = (pieces[-1][0] + shown, other)
        else:
            pieces.append((shown, other))
    return tuple(pieces)


def _has(font: str, character: str) -> bool:
    return character in "\n\t" or ord(character) in pdfmetrics.getFont(font).face.charToGlyph
