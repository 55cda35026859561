"""The as-built record of a shell: one plain text, whose SHA-256 anybody can work out. It names no person and no price.

The text is UTF-8 with a line feed after every line and no other blanks at a line's end; ids are the rule book's, days
are ISO 8601. What somebody wrote in his own words stays out of it, because it may name somebody.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

#: What the first line says: a later form of the text has a number of its own.
FORM = "as-built record, form 1"


@dataclass(frozen=True, slots=True)
class Conceded:
    """`subject` as in `gap:bonnet-front`; `measured` and `limit` as they were written, where they were."""

    subject: str
    day: date
    measured: str = ""
    limit: str = ""


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """`specification`: option → choice. `stages`: stage → the day on which it was done, in their order.

    `welds`: zone → the days on which it was welded. `mended`: (subject, day). `inspection`: (what, how it stands), each
    in ids. `parts`: ids of the rules whose part of a donor car is built in.
    """

    serial: str
    firm: str
    book: int
    revision: str
    sheet: int
    specification: Mapping[str, str]
    stages: Sequence[tuple[str, date]]
    despatched: date
    welds: Mapping[str, Sequence[date]]
    inspection: Sequence[tuple[str, str]] = ()
    parts: Sequence[str] = ()
    concessions: Sequence[Conceded] = ()
    mended: Sequence[tuple[str, date]] = ()


def as_built_text(made: AsBuilt) -> str:
    """The canonical text."""
    return "".join(f"{line}\n" for line in _lines(made))


def _lines(made: AsBuilt) -> Iterator[str]:
    yield FORM
    yield f"serial: {made.serial}"
    yield f"built by: {made.firm}"
    yield f"rule book: {made.book}"
    yield f"specification revision: {made.revision}"
    yield f"sheet revision: {made.sheet}"
    yield f"despatched: {made.despatched.isoformat()}"
    yield from _part("specification", [f"{option}: {choice}" for option, choice in made.specification.items()])
    yield from _part("stages done", [f"{stage}: {day.isoformat()}" for stage, day in made.stages])
    yield from _part("weld zones", [f"{zone}: {_days(days)}" for zone, days in made.welds.items()])
    yield from _part("inspection", [f"{what}: {stands}" for what, stands in made.inspection])
    yield from _part("parts of a donor car built in", made.parts)
    yield from _part("passed by concession", [_conceded(one) for one in made.concessions])
    yield from _part("mended", [f"{subject}: {day.isoformat()}" for subject, day in made.mended])


def _part(name: str, lines: Sequence[str]) -> Iterator[str]:
    """That there is nothing is said: a line that is missing says nothing."""
    yield ""
    yield f"[{name}]"
    yield from lines or ("none recorded",)


def _days(days: Sequence[date]) -> str:
    return ", ".join(day.isoformat() for day in days)


def _conceded(one: Conceded) -> str:
    told = [f"measured {one.measured}" if one.measured else "", f"limit {one.limit}" if one.limit else ""]
    return "; ".join((f"{one.subject}: {one.day.isoformat()}", *(part for part in told if part)))
