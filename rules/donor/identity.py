"""An identity number as typed → series and number, or what is odd about it. Data only; words are made elsewhere.

Only the exact canonical text is *identified*. Whatever has to be read charitably is offered back for somebody to
confirm and never mended in silence: a wrong donor on an order is dearer than one more question.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from rules.model import Series

#: No plate is longer; what is longer is some other text pasted into the field.
LONGEST = 40

#: Letters that are taken for one another on a worn plate or typed by an unlike keyboard, as the digit or letter meant.
_LOOKS_LIKE = str.maketrans(
    {
        "O": "0",
        "I": "1",
        "L": "1",
        "\N{CYRILLIC CAPITAL LETTER O}": "0",
        "\N{GREEK CAPITAL LETTER OMICRON}": "0",
        "\N{CYRILLIC CAPITAL LETTER BYELORUSSIAN-UKRAINIAN I}": "1",
        "\N{GREEK CAPITAL LETTER IOTA}": "1",
        "\N{CYRILLIC CAPITAL LETTER TE}": "T",
        "\N{GREEK CAPITAL LETTER TAU}": "T",
    }
)

_SEPARATORS = frozenset("-\N{MINUS SIGN}/._:\N{MIDDLE DOT}")


@dataclass(frozen=True, slots=True)
class Identified:
    """The exact number of a car of the series `series` (a choice of the series option)."""

    text: str
    series: str
    number: int
    canonical: str


@dataclass(frozen=True, slots=True)
class Beyond:
    """Well written, but not among the numbers known: `by` numbers past the last or before the first.

    `side`: "after" or "before"; `limit`: the last or the first number known, written out.
    """

    text: str
    series: str
    number: int
    canonical: str
    side: str
    limit: str
    by: int


@dataclass(frozen=True, slots=True)
class Mendable:
    """Readable with good will as `offer`, which somebody must confirm; read again, it may still be beyond.

    `mended`: what had to be mended, of "forms" (full-width or another script's), "spaces", "dash", "case", "letters"
    (a letter for a digit that looks like it), "zeros" (leading ones missing or too many).
    """

    text: str
    offer: str
    series: str
    number: int
    mended: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Unreadable:
    """No number can be made of it. `prefixes`: what numbers may begin with.

    `why`: "empty", "too-long", "no-series" (begins as no series does), "no-digits", "too-many-digits", "not-digits"
    (something else than a digit in the number), "ambiguous" (may be read as numbers of two series).
    """

    text: str
    why: str
    prefixes: tuple[str, ...]


NumberReading = Identified | Beyond | Mendable | Unreadable


def read_number(text: str, series: tuple[Series, ...]) -> NumberReading:
    """What the text says, by the series' prefixes, ranges and widths."""
    for one in series:
        number = _exact(text, one)
        if number is not None:
            return _placed(text, one, number)
    return _charitably(text, series)


def write_number(series: Series, number: int) -> str:
    """The canonical text: prefix, hyphen, the number in as many digits as the series has."""
    return f"{series.prefix}-{number:0{series.width}d}"


def _exact(text: str, series: Series) -> int | None:
    """The number where the text is canonical, in the range or not; compared as text, so no odd digit slips through."""
    digits = text.removeprefix(f"{series.prefix}-")
    if len(digits) != series.width or not _plain(digits):
        return None
    number = int(digits)
    return number if text == write_number(series, number) else None


def _placed(text: str, series: Series, number: int) -> Identified | Beyond:
    if series.first <= number <= series.last:
        return Identified(text, series.choice, number, text)
    side, limit = ("after", series.last) if number > series.last else ("before", series.first)
    return Beyond(text, series.choice, number, text, side, write_number(series, limit), abs(number - limit))


def _charitably(text: str, series: tuple[Series, ...]) -> Mendable | Unreadable:
    prefixes = tuple(one.prefix for one in series)
    if len(text) > LONGEST:
        return Unreadable(text, "too-long", prefixes)
    typed = _compact(_plain_forms(text))
    if not typed:
        return Unreadable(text, "empty", prefixes)
    readings = tuple(_readings(typed, series))
    offers = tuple((one, digits) for one, digits, why in readings if why is None)
    if len(offers) == 1:
        return _offer(text, typed, *offers[0])
    return Unreadable(text, "ambiguous" if offers else _why(readings), prefixes)


def _readings(typed: str, series: tuple[Series, ...]) -> Iterator[tuple[Series, str, str | None]]:
    """Each series that the text may begin as, with the digits that follow and what is wrong with them."""
    alike = _alike(typed)
    for one in series:
        prefix = _alike(_compact(one.prefix))
        if alike.startswith(prefix):
            digits = alike.removeprefix(prefix)
            yield one, digits, _wrong(digits, one.width)


def _wrong(digits: str, width: int) -> str | None:
    if not digits:
        return "no-digits"
    if not _plain(digits):
        return "not-digits"
    return "too-many-digits" if len(digits.lstrip("0")) > width else None


def _why(readings: tuple[tuple[Series, str, str | None], ...]) -> str:
    return next((why for _, _, why in readings if why is not None), "no-series")


def _offer(text: str, typed: str, series: Series, digits: str) -> Mendable:
    number = int(digits)
    meant = _compact(series.prefix) + digits
    mended = tuple(_mended(text, typed, meant, series, digits))
    return Mendable(text, write_number(series, number), series.choice, number, mended)


def _mended(text: str, typed: str, meant: str, series: Series, digits: str) -> Iterator[str]:
    unspaced = "".join(c for c in _plain_forms(text) if not _is_space(c))
    if _plain_forms(text) != text:
        yield "forms"
    if any(_is_space(c) for c in text):
        yield "spaces"
    if [(i, c) for i, c in enumerate(unspaced) if _is_separator(c)] != [(len(series.prefix), "-")]:
        yield "dash"
    pairs = [(a, b) for a, b in zip(typed, meant, strict=True) if a != b]
    if any(a.upper() == b for a, b in pairs):
        yield "case"
    if any(a.upper() != b for a, b in pairs):
        yield "letters"
    if len(digits) != series.width:
        yield "zeros"


def _plain_forms(text: str) -> str:
    """Full-width and other compatible forms as their plain ones, any script's digits as ASCII ones; spaces kept."""
    return "".join(c if _is_space(c) or _is_separator(c) else _plain_form(c) for c in text)


def _plain_form(character: str) -> str:
    digit = unicodedata.decimal(character, None)
    return unicodedata.normalize("NFKC", character) if digit is None else str(digit)


def _compact(text: str) -> str:
    return "".join(c for c in text if not _is_space(c) and not _is_separator(c))


def _alike(text: str) -> str:
    return "".join(c if len(c.upper()) > 1 else c.upper() for c in text).translate(_LOOKS_LIKE)


def _is_space(character: str) -> bool:
    """Spaces, line ends and what takes no room at all (zero-width space, soft hyphen, byte-order mark)."""
    return character.isspace() or unicodedata.category(character) in ("Cf", "Cc")


def _is_separator(character: str) -> bool:
    return character in _SEPARATORS or unicodedata.category(character) == "Pd"


def _plain(digits: str) -> bool:
    return digits.isascii() and digits.isdigit()
