"""Readings come in, one or a tablet's whole queue, and stay as they were taken; gauges and their calibrations."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault
from app.domain.floor.shell import Deed
from app.domain.inspection.inspection import MEASURED_WITH, Gauge, GaugeSort, last_calibrated
from app.services.answering.checking import LONGEST_LINE, blank_faults, long_faults, refuse
from app.services.floor.stopping import refuse_planned
from app.services.inspection.inspecting import Inspection, inspected
from app.services.once import Once, perform
from app.store import inspections
from app.store.db import Store
from app.store.inspections import Taken
from rules.inspection.subject import value_of

#: A tablet's clock may be ahead by as much.
AHEAD = timedelta(minutes=10)

#: A gauge is calibrated for no longer than that: a slip of the finger would make it good for ever.
LONGEST = timedelta(days=3 * 366)


def take(
    store: Store, actor: Actor, key: int, readings: Sequence[Taken], now: datetime, *, once: Once | None = None
) -> None:
    """All of them or none; one whose key is here already is the same reading, and is not taken again.

    Raises NotFound, ShellStands, BadInput, UnknownNames, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        one = inspected(store, db, actor, key, now)
        refuse_planned(one.found)
        here = inspections.known_keys(db, (reading.key for reading in readings))
        fresh = {reading.key: reading for reading in readings if reading.key not in here}
        refuse(_faults(one, readings, here, now))
        inspections.add_readings(db, one.found.shell.id, fresh.values(), actor.name, now)
        return one.found.shell.id

    perform(store, once, now, write)


def _faults(one: Inspection, readings: Sequence[Taken], here: Mapping[str, int], now: datetime) -> Iterator[Fault]:
    released = min((done.at for done in one.found.shell.deeds if done.deed is Deed.RELEASED), default=now)
    for at, reading in enumerate(readings):
        path = f"readings.{at}"
        if reading.key not in here:
            yield from _said_faults(one, path, reading)
            if not released <= reading.at <= now + AHEAD:
                yield Fault(f"{path}.at", "not-when-taken")
        elif here[reading.key] != one.found.shell.id:
            yield Fault(f"{path}.key", "another-shells")


def _said_faults(one: Inspection, path: str, reading: Taken) -> Iterator[Fault]:
    subject = next((subject for subject in one.subjects if subject.id == reading.subject), None)
    if subject is None:
        yield Fault(f"{path}.subject", "unknown-subject", {"name": reading.subject})
        return
    if value_of(subject.told, reading.value) is None:
        yield Fault(f"{path}.value", f"not-read-{subject.told.value}")
    if reading.unit != subject.unit:
        yield Fault(f"{path}.unit", "not-one-of", {"choices": [subject.unit]})
    yield from _gauge_faults(one, path, reading, MEASURED_WITH.get(subject.kind))


def _gauge_faults(one: Inspection, path: str, reading: Taken, sort: GaugeSort | None) -> Iterator[Fault]:
    gauge = next((gauge for gauge in one.every_gauge if gauge.id == reading.gauge), None)
    if reading.gauge is None:
        if sort is not None:
            yield Fault(f"{path}.gauge", "gauge-needed")
    elif gauge is None or gauge.sort is not sort:
        yield Fault(f"{path}.gauge", "gauge-unfit")


def gauges(store: Store) -> tuple[Gauge, ...]:
    """Each as it was last calibrated."""
    with store.reading() as db:
        return last_calibrated(inspections.all_gauges(db))


def calibrate(
    store: Store, actor: Actor, mark: str, sort: GaugeSort, span: tuple[date, date], now: datetime,
    *, once: Once | None = None,
) -> int:  # fmt: skip
    """A gauge as it was calibrated, a new one or one anew under its mark. `span`: from … up to and including.

    Raises BadInput, KeyReused, Underway.
    """
    mark = mark.strip()
    refuse((*blank_faults("mark", mark), *long_faults("mark", mark, LONGEST_LINE), *_span_faults(span, now)))

    def write(db: Database) -> int:
        sorts = {gauge.mark: gauge.sort for gauge in inspections.all_gauges(db)}
        refuse([Fault("sort", "gauge-other-sort")] if sorts.get(mark, sort) is not sort else [])
        return inspections.add_gauge(db, mark, sort, span, actor.name, now)

    return int(perform(store, once, now, write))


def _span_faults(span: tuple[date, date], now: datetime) -> Iterator[Fault]:
    calibrated, due = span
    if calibrated > now.date():
        yield Fault("calibrated", "in-the-future")
    if not calibrated <= due <= calibrated + LONGEST:
        yield Fault("due", "not-after-calibrated")
