"""A customer's part from its arrival to its return: what was found, what was decided, how it stands by that. Pure.

A part's gate is opened by its verdict alone: a day written by hand says when one is expected, and opens nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import Enum

from app.domain.errors import Fault
from app.domain.floor.gates import Key, Said
from rules.lengths import lengths_of
from rules.model import Bound, Remarked

#: Places beyond this are no shell's: what came for a shell that the order has no longer.
NO_SHELL = 1_000_000

#: The gate that customers' parts open.
GATE = "parts"

#: As millimetres are measured here: more than this is no part of a car.
_LONGEST = Decimal(10_000)


class PartStands(Enum):
    """How a part stands: nothing came, it is here and not inspected, it passed, it failed."""

    EXPECTED = "expected"
    ARRIVED = "arrived"
    PASSED = "passed"
    FAILED = "failed"


class PartAct(Enum):
    """What is done with a part that can't be built in: it stays the customer's."""

    TAGGED = "tagged"
    KEPT = "kept"
    RETURNED = "returned"


class Choice(Enum):
    """What the customer chooses where his part fails."""

    SECOND = "second"
    INSTEAD = "instead"
    CANCEL = "cancel"


@dataclass(frozen=True, slots=True)
class Finding:
    """The answer to one limit of the book: `met` None where nobody looked; `measured` in millimetres."""

    met: bool | None = None
    measured: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Verdict:
    """`findings` one by one to the limits of that part in the rule book `book`; `signed`: whose code signed it."""

    passed: bool
    findings: tuple[Finding, ...]
    why: str
    day: date
    at: datetime
    by: str
    signed: str
    book: int


@dataclass(frozen=True, slots=True)
class ActDone:
    """`day`: on which it was done; `note`: where it is kept, how it went back."""

    act: PartAct
    day: date
    note: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """`day`: when another is expected to pass; `letter`: of the draft in which `instead` is chosen for `option`."""

    choice: Choice
    note: str
    at: datetime
    by: str
    day: date | None = None
    option: str | None = None
    instead: str | None = None
    letter: str | None = None


@dataclass(frozen=True, slots=True)
class PartPhotograph:
    """`width` and `height` in pixels, `size` in bytes, of the picture as it is kept."""

    id: int
    note: str
    width: int
    height: int
    size: int
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Arrival:
    """A part that came for the shell at `place` (from 1) of its order, for the part rule `rule`.

    `by_hand`: its gate was written open before arrivals were recorded.
    """

    id: int
    place: int
    rule: str
    day: date
    note: str
    at: datetime
    by: str
    by_hand: bool = False
    verdicts: tuple[Verdict, ...] = ()
    acts: tuple[ActDone, ...] = ()
    choices: tuple[Chosen, ...] = ()
    photographs: tuple[PartPhotograph, ...] = ()

    @property
    def verdict(self) -> Verdict | None:
        """The last one counts."""
        return self.verdicts[-1] if self.verdicts else None

    @property
    def stands(self) -> PartStands:
        if self.verdict is None:
            return PartStands.ARRIVED
        return PartStands.PASSED if self.verdict.passed else PartStands.FAILED

    @property
    def gone(self) -> bool:
        """It went back to the customer."""
        return any(one.act is PartAct.RETURNED for one in self.acts)


class PartBarred(Enum):
    """Why something can't be done with a part as it stands."""

    NOT_HERE = "not-here"
    NOT_INSPECTED = "not-inspected"
    PASSED = "passed"
    NOT_FAILED = "not-failed"
    RETURNED = "returned"
    NO_PHOTOGRAPH = "no-photograph"
    NOT_NEEDED = "not-needed"


def stands(arrivals: Sequence[Arrival]) -> PartStands:
    """How the part stands by the last that came."""
    return arrivals[-1].stands if arrivals else PartStands.EXPECTED


def arrival_barred(arrivals: Sequence[Arrival]) -> PartBarred | None:
    """Another may come once the last has failed."""
    match stands(arrivals):
        case PartStands.ARRIVED:
            return PartBarred.NOT_INSPECTED
        case PartStands.PASSED:
            return PartBarred.PASSED
    return None


def verdict_barred(arrivals: Sequence[Arrival], *, passed: bool) -> PartBarred | None:
    """A part that is here is inspected, and may be inspected again; none fails without a picture of it."""
    if not arrivals:
        return PartBarred.NOT_HERE
    if arrivals[-1].gone:
        return PartBarred.RETURNED
    return None if passed or arrivals[-1].photographs else PartBarred.NO_PHOTOGRAPH


def choice_barred(arrivals: Sequence[Arrival]) -> PartBarred | None:
    return None if stands(arrivals) is PartStands.FAILED else PartBarred.NOT_FAILED


def act_barred(arrival: Arrival | None, *, needed: bool) -> PartBarred | None:
    """What passed is built in, while it is needed; what went back is gone."""
    if arrival is None:
        return PartBarred.NOT_HERE
    if arrival.gone:
        return PartBarred.RETURNED
    return PartBarred.PASSED if needed and arrival.stands is PartStands.PASSED else None


def finding_of(limit: Remarked, met: bool | None, measured: Decimal | None) -> Finding:
    """As it is judged: what is measured is held against the limit's own length, whatever somebody ticked."""
    length = length_of(limit)
    if length is None:
        return Finding(met)
    if measured is None:
        return Finding()
    return Finding(measured <= length if limit.bound is Bound.MOST else measured >= length, measured)


def length_of(limit: Remarked) -> Decimal | None:
    """In millimetres, of a limit that is measured."""
    return None if limit.bound is None else lengths_of(next(iter(limit.text.values())))[0]


def verdict_faults(findings: Sequence[Finding], why: str, *, passed: bool) -> Iterator[Fault]:
    """Blanks can't pass, nor what is beyond a limit; what fails for no limit says why."""
    for at, one in enumerate(findings):
        if one.measured is not None and not 0 <= one.measured <= _LONGEST:
            yield Fault(f"findings.{at}.measured", "no-length-of-a-part", {"most": _LONGEST})
        elif passed and one.met is None:
            yield Fault(f"findings.{at}", "limit-blank")
        elif passed and not one.met:
            yield Fault(f"findings.{at}", "limit-not-met")
    if not passed and not why and all(one.met is not False for one in findings):
        yield Fault("why", "part-fails-for-nothing")


def failed_parts(arrivals: Iterable[Arrival]) -> Mapping[int, tuple[str, ...]]:
    """Place of a shell → the rules of its parts of which the last that came failed."""
    last = {(one.place, one.rule): one for one in arrivals}
    found: dict[int, tuple[str, ...]] = {}
    for (place, rule), one in last.items():
        if one.stands is PartStands.FAILED:
            found[place] = (*found.get(place, ()), rule)
    return found


def gates_by_parts(
    said: Mapping[tuple[int, Key], Said], arrivals: Iterable[Arrival], today: date
) -> dict[tuple[int, Key], Said]:
    """What was said of gates, with those of parts as the parts' own records have them.

    A day by hand stands while it is to come and nothing has failed since it was said: then a part is expected.
    """
    last = {(one.place, (GATE, one.rule)): one for one in arrivals}
    found = {key: one for key, one in said.items() if key[1][0] != GATE or _expects(one, last.get(key), today)}
    for key, one in last.items():
        if one.verdict is not None and one.verdict.passed:
            found[key] = Said(one.verdict.day, one.verdict.signed, one.verdict.at)
    return found


def _expects(said: Said, last: Arrival | None, today: date) -> bool:
    """A shell waits for whatever was expected after the last verdict."""
    return said.day > today and (last is None or last.verdict is None or said.at >= last.verdict.at)
