"""The demo's inspections: shells past theirs were read and passed, one that came early is half read. All invented."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, time, timedelta
from decimal import Decimal

from app.domain.floor.shell import Deed, Done, ShellState
from app.domain.floor.welding import Weld
from app.domain.inspection.inspection import MEASURED_WITH, Decided, GaugeSort, Priming, Verdict
from app.services.inspection import inspecting, measuring
from app.services.inspection.inspecting import Inspection
from app.store import inspections, shells, welds
from app.store.db import Store
from app.store.inspections import Taken
from demo.people import PERSON
from rules.inspection.subject import Kind, Phase, Subject, Told
from rules.model import Work

OONA, TOMASZ, IDRIS = (PERSON[name] for name in ("oona", "tomasz", "idris"))

#: mark, sort, days since it was calibrated, days that it is good for; the last feeler is out of date.
GAUGES = (
    ("F-07", GaugeSort.FEELER, 80, 365),
    ("S-02", GaugeSort.STEP, 80, 365),
    ("C-11", GaugeSort.CALLIPER, 80, 365),
    ("T-01", GaugeSort.TRAMMEL, 120, 730),
    ("D-03", GaugeSort.FILM, 80, 365),
    ("K-01", GaugeSort.COLOUR, 80, 365),
    ("F-05", GaugeSort.FEELER, 400, 365),
)

#: What was read on the shell that is half read: a door that is even at neither end, a spot that is small but holds.
HALF = {
    "gap:df-top-left": "3.6",
    "gap:df-bottom-left": "4.7",
    "gap:df-top-right": "4.6",
    "gap:df-bottom-right": "4.6",
    "nugget:z-wing-left": "3.5",
}

#: Kinds that it was read for so far.
SO_FAR = (Kind.FEATURE, Kind.WELD, Kind.SEAM, Kind.NUGGET, Kind.SPACING, Kind.OVERLAP, Kind.GAP, Kind.DATUM)

#: Colour of sample and shell, by L*a*b*.
SAMPLE, SHELL = "46.2 -3.1 -6.4", "46.5 -3.0 -6.1"

_STEPS = (0, 1, -1, 2, 0, -2, 1, 0, -1)


def inspect(store: Store, now: datetime) -> None:
    """After the shop was built: gauges, then every shell that is at its inspection or past it."""
    sorts = _gauges(store, now)
    _bring_one(store, now)
    for one in inspecting.waiting(store, now):
        if one.is_due:
            _read(store, one, sorts, dict(_half(one)), now - timedelta(minutes=50))
        else:
            _pass(store, one, sorts)


def _gauges(store: Store, now: datetime) -> Mapping[GaugeSort, int]:
    made: dict[GaugeSort, int] = {}
    for mark, sort, days, good in GAUGES:
        at = now - timedelta(days=days)
        span = (at.date(), at.date() + timedelta(days=good))
        made.setdefault(sort, measuring.calibrate(store, OONA, mark, sort, span, at))
    return made


def _bring_one(store: Store, now: datetime) -> None:
    """One that stands before its inspection came early; a painted one, if there is any."""
    with store.reading() as db:
        found = [one for one in inspecting.before(store, db, now) if one.shell.state is ShellState.IN_BUILD]
    if found:
        one = min(found, key=lambda each: (each.gated.frozen.settled.get("finish") != "painted", each.shell.id))
        stage, at = one.shell.progress.stage, now - timedelta(minutes=90)
        with store.writing() as db:
            shells.add(db, one.shell.id, Done(Deed.DONE, at, TOMASZ.name, stage, signed=IDRIS.name))
            # Oona welded its sills while a welder was ill: she can't sign for it alone.
            welds.add(db, one.shell.id, [Weld("z-sills", OONA.name, at.date(), at, TOMASZ.name)])


def _half(one: Inspection) -> Iterator[tuple[str, str]]:
    for place, subject in enumerate(one.subjects):
        if subject.phase is Phase.METAL and subject.kind in SO_FAR:
            yield subject.id, HALF.get(subject.id, _value(subject, place))


def _pass(store: Store, one: Inspection, sorts: Mapping[GaugeSort, int]) -> None:
    """In metal when its stage was signed; in its coat before its paint was done, or, primed, once it is ready."""
    _sign(store, one, sorts, Phase.METAL, _ended(one, one.stage or ""))
    progress, route = one.found.shell.progress, one.found.shell.route
    paint = next((stop.stage for stop in route if stop.work is Work.PAINT), None)
    if paint in progress.through:
        _sign(store, one, sorts, Phase.COATED, _ended(one, paint) - timedelta(minutes=10))
    elif one.found.shell.state is ShellState.READY:
        done = max(done.at for done in one.found.shell.deeds if done.deed is Deed.DONE)
        if one.coat is not None and one.coat.overcoat is not None:
            with store.writing() as db:
                priming = Priming(one.coat.id, (done - timedelta(days=1)).date(), done, OONA.name)
                inspections.add_priming(db, one.found.shell.id, priming)
        _sign(store, one, sorts, Phase.COATED, done + timedelta(hours=1))


def _sign(store: Store, one: Inspection, sorts: Mapping[GaugeSort, int], phase: Phase, at: datetime) -> None:
    values = {s.id: _value(s, place) for place, s in enumerate(one.subjects) if s.phase is phase}
    _read(store, one, sorts, values, datetime.combine(at.date(), time(9, 30), at.tzinfo))
    with store.writing() as db:
        said = Decided(phase, Verdict.PASS, "", at, TOMASZ.name, OONA.name)
        inspections.add_verdict(db, one.found.shell.id, said)


def _ended(one: Inspection, stage: str | None) -> datetime:
    return next(done.at for done in one.found.shell.deeds if done.deed is Deed.DONE and done.stage == stage)


def _read(
    store: Store, one: Inspection, sorts: Mapping[GaugeSort, int], values: Mapping[str, str], at: datetime
) -> None:
    shell, subjects = one.found.shell.id, {subject.id: subject for subject in one.subjects}
    taken = []
    for place, (name, value) in enumerate(values.items()):
        subject = subjects[name]
        sort = MEASURED_WITH.get(subject.kind)
        moment = at + timedelta(seconds=9 * place)
        key = f"demo-{shell}-{name}"
        taken.append(Taken(key, name, value, subject.unit, sorts[sort] if sort else None, moment))
    with store.writing() as db:
        inspections.add_readings(db, shell, taken, OONA.name, at + timedelta(minutes=45))


def _value(subject: Subject, place: int) -> str:
    """Within its limits, and not the same everywhere."""
    limit, step = subject.limit, _STEPS[place % len(_STEPS)]
    if limit.expected:
        return limit.expected
    if subject.told is Told.COLOUR:
        return SAMPLE if subject.kind is Kind.SAMPLE else SHELL
    if subject.told in (Told.COUNT, Told.CLASS):
        return f"{limit.least or Decimal(0):f}"
    if limit.least is not None and limit.most is not None:
        middle, tenth = (limit.least + limit.most) / 2, (limit.most - limit.least) / 20
        return f"{(middle + step * tenth).quantize(_fine(subject)):f}"
    return f"{((limit.aim or limit.least or Decimal(0)) * (1 + Decimal(2 + step) / 50)).quantize(_fine(subject)):f}"


def _fine(subject: Subject) -> Decimal:
    return Decimal(1) if subject.unit == "µm" else Decimal("0.1")
