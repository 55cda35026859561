"""An inspection as a test does it: every point read within its limits, then the verdict."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta
from decimal import Decimal
from uuid import uuid4

from app.domain.asking.people import Person, Role
from app.domain.inspection.inspection import MEASURED_WITH, GaugeSort, Verdict
from app.services.floor.signing import Signature
from app.services.inspection import inspecting, measuring, passing
from app.services.inspection.inspecting import Inspection
from app.services.inspection.passing import Said
from app.store.db import Store
from app.store.inspections import Taken
from rules.inspection.subject import Kind, Phase, Subject, Told

#: Whoever is signed in at the tablet.
TABLET = Person("oona", "Oona Reyes", Role.INSPECTOR)


def gauges(store: Store, now: datetime) -> Mapping[GaugeSort, int]:
    """One of each sort, calibrated this year; made where there is none."""
    had = {gauge.sort: gauge.id for gauge in measuring.gauges(store)}
    span = (now.date() - timedelta(days=60), now.date() + timedelta(days=305))
    for sort in GaugeSort:
        if sort not in had:
            had[sort] = measuring.calibrate(store, TABLET, f"{sort.value}-1", sort, span, now)
    return had


def good(subject: Subject) -> str:
    """A value within its limits; in the middle of them where they have one."""
    limit = subject.limit
    if subject.told is Told.COLOUR:
        return "50 2.6772 -79.7751"
    if limit.expected:
        return limit.expected
    if limit.least is not None and limit.most is not None:
        return f"{((limit.least + limit.most) / 2).quantize(Decimal('0.01')).normalize() + 0:f}"
    return f"{limit.aim or limit.least or limit.most or 0:f}"


def read(store: Store, shell: int, values: Mapping[str, str], now: datetime, *, at: datetime | None = None) -> None:
    """These subjects, as they were read."""
    with_gauges = gauges(store, now)
    subjects = {one.id: one for one in inspecting.inspection(store, TABLET, shell, now).subjects}
    measuring.take(store, TABLET, shell, list(_taken(subjects, values, with_gauges, at or now)), now)


def _taken(
    subjects: Mapping[str, Subject], values: Mapping[str, str], with_gauges: Mapping[GaugeSort, int], at: datetime
) -> Iterator[Taken]:
    for name, value in values.items():
        subject = subjects[name]
        sort = MEASURED_WITH.get(subject.kind)
        yield Taken(str(uuid4()), name, value, subject.unit, with_gauges[sort] if sort else None, at)


def read_all(
    store: Store, shell: int, now: datetime, phase: Phase = Phase.METAL, but: Mapping[str, str] | None = None,
    without: tuple[str, ...] = (),
) -> Inspection:  # fmt: skip
    """Every subject of the phase that is still to be read, within its limits `but` for these, and `without` those."""
    one = inspecting.inspection(store, TABLET, shell, now)
    left = {subject.id: good(subject) for subject in one.subjects if subject.id in one.looked[phase].unread}
    values = {name: value for name, value in {**left, **(but or {})}.items() if name not in without}
    read(store, shell, values, now)
    return inspecting.inspection(store, TABLET, shell, now)


def passed(store: Store, shell: int, signature: Signature, now: datetime, phase: Phase = Phase.METAL) -> None:
    """Read and passed."""
    read_all(store, shell, now + timedelta(minutes=1), phase)
    passing.decide(store, TABLET, shell, Said(phase, Verdict.PASS), signature, now)


def calibrated(now: datetime) -> tuple[date, date]:
    """A calibration that ended yesterday."""
    return now.date() - timedelta(days=400), now.date() - timedelta(days=1)


#: What is read of a spot weld in three ways.
SPOT = (Kind.NUGGET, Kind.SPACING, Kind.OVERLAP)
