"""A shell's inspection, from its serial: what is looked at, what was read, what that says. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.floor.rework import Rework, last_mended
from app.domain.floor.shell import ENDED, ShellState
from app.domain.inspection import inspection as looking
from app.domain.inspection.concession import Concession, figure_in, holding
from app.domain.inspection.inspection import Decided, Gauge, Granted, Looked, Priming, Reading, Standing
from app.services.books.publishing import current_book
from app.services.floor import finding
from app.services.floor.finding import FoundShell, found_shell, known_shell
from app.store import concessions, inspection_photographs, inspections, rework, welds
from app.store.db import Store
from app.store.inspection_photographs import SubjectPhotograph
from app.store.inspections import Words
from rules.inspection.deviation import Finding, by_id
from rules.inspection.judging import Judged, Mark, Predicted, all_judged, compared, film_of, judged, predicted
from rules.inspection.listing import NO_LIMITS, is_painted, subjects_of
from rules.inspection.subject import Kind, Phase, Subject, Told, Value, value_of
from rules.making import Coat, Limits
from rules.model import Book
from rules.model import Work as At
from rules.workshop.work import Work

#: In their order.
PHASES = (Phase.METAL, Phase.COATED)


@dataclass(frozen=True, slots=True)
class Overcoat:
    """`by`: the last day on which the primer may be overcoated as it is. `words`: who takes it later all the same."""

    priming: Priming
    by: date
    words: Words | None

    def stops(self, today: date) -> bool:
        """Whether nothing may leave: the day is past, and nobody acknowledged it in writing."""
        return today > self.by and self.words is None


@dataclass(frozen=True, slots=True)
class Inspection:
    """One shell's. `limits`: of its order's book, or, where that has none, of the book in force.

    `since`: concession that waits → what came after it was asked for and a yes wouldn't cover → as that was then.
    `every_gauge`: each calibration of each. `stage`: the stage that is signed with the verdict in metal.
    """

    found: FoundShell
    work: Work
    limits: Limits
    subjects: tuple[Subject, ...]
    readings: tuple[Reading, ...]
    standing: Standing
    values: Mapping[str, Value]
    looked: Mapping[Phase, Looked]
    predicted: tuple[Predicted, ...]
    decided: tuple[Decided, ...]
    reworks: tuple[Rework, ...]
    concessions: tuple[Concession, ...]
    since: Mapping[int, Mapping[str, Finding | None]]
    every_gauge: tuple[Gauge, ...]
    welders: Mapping[str, tuple[str, ...]]
    photographs: tuple[SubjectPhotograph, ...]
    priming: Priming | None
    overcoat: Overcoat | None

    @property
    def book(self) -> Book:
        return self.found.whole.book

    @property
    def today(self) -> date:
        return self.found.whole.today

    @property
    def gauges(self) -> tuple[Gauge, ...]:
        """Each as it was last calibrated."""
        return looking.last_calibrated(self.every_gauge)

    @property
    def serial(self) -> str:
        return self.found.shell.serial or ""

    @property
    def coat(self) -> Coat | None:
        return self.work.coat

    @property
    def painted(self) -> bool:
        return is_painted(self.book, self.work)

    @property
    def stage(self) -> str | None:
        return inspection_stage(self.found)

    @property
    def is_due(self) -> bool:
        """Whether the shell is at its inspection now."""
        return self.stage is not None and self.found.shell.progress.stage == self.stage

    def passed(self, phase: Phase) -> Decided | None:
        """The verdict by which that phase lets the shell go on.

        What was mended undoes that of the coat; whether it undoes the one in metal is seen by the shell's own stages.
        """
        if phase is Phase.METAL:
            return looking.passed(self.decided, phase) if self.is_through else None
        return looking.passed(self.decided, phase, self.mended)

    def finding(self, name: str) -> Finding:
        """What is out under that name."""
        return next(one.findings[name] for one in self.looked.values() if name in one.findings)

    @property
    def failed(self) -> tuple[str, ...]:
        """What was read, is out, and nobody conceded, by the names of concessions; nothing that is only expected."""
        each = ((name, one) for one in self.looked.values() for name in one.failed)
        read = (looking.about(name, one.gaps) for name, one in each if not isinstance(one.findings[name], Predicted))
        return tuple(dict.fromkeys(read))

    @property
    def is_through(self) -> bool:
        """Whether its stage of inspection is signed."""
        return self.stage in self.found.shell.progress.through

    @property
    def mended(self) -> datetime | None:
        """When something was last mended."""
        return last_mended(self.reworks)


def inspection(store: Store, actor: Actor, key: int, now: datetime) -> Inspection:
    """Of one that was replaced, too. Raises NotFound."""
    with store.reading() as db:
        return inspection_of(store, db, known_shell(store, db, actor, key, now), now)


def by_serial(store: Store, actor: Actor, serial: str, now: datetime) -> Inspection:
    """Raises NotFound."""
    with store.reading() as db:
        key = inspections.shell_of(db, serial.strip().upper())
        if key is None:
            raise NotFound(what="shell", name=serial)
        return inspection_of(store, db, known_shell(store, db, actor, key, now), now)


def inspected(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> Inspection:
    """To write to it, inside a transaction. Raises NotFound, ShellStands for one that was replaced."""
    return inspection_of(store, db, found_shell(store, db, actor, key, now), now)


def waiting(store: Store, now: datetime) -> tuple[Inspection, ...]:
    """Of every shell that is at its inspection, or past it and still in the house; the lowest serial first."""
    with store.reading() as db:
        due = [one for one in finding.every_found(store, db, now) if _is_due(one)]
        told = [inspection_of(store, db, one, now) for one in due]
    return tuple(sorted(told, key=lambda one: one.serial))


def before(store: Store, db: Database, now: datetime) -> tuple[FoundShell, ...]:
    """Those whose next stage is their inspection, inside a transaction."""
    return tuple(one for one in finding.every_found(store, db, now) if _comes_next(one))


def _comes_next(found: FoundShell) -> bool:
    route, at = [stop.stage for stop in found.shell.route], found.shell.progress.stage
    stage = inspection_stage(found)
    return stage is not None and at in route and route.index(stage) == route.index(at) + 1


def _is_due(found: FoundShell) -> bool:
    stage, stands = inspection_stage(found), found.shell.progress
    begun = stands.state not in (ShellState.PLANNED, *ENDED)
    return begun and stage is not None and (stage == stands.stage or stage in stands.through)


def inspection_stage(found: FoundShell) -> str | None:
    """The stage of its route at which it is inspected."""
    return next((stop.stage for stop in found.shell.route if stop.work is At.INSPECTION), None)


def inspection_of(store: Store, db: Database, found: FoundShell, now: datetime) -> Inspection:
    """All that is known of the shell's inspection, inside a transaction."""
    key, book, work = found.shell.id, found.whole.book, finding.work(found)
    limits = book.making.limits or current_book(store, now).making.limits or NO_LIMITS
    subjects = subjects_of(book, work, tuple(found.gated.frozen.settled), limits)
    every_gauge, reworks = inspections.all_gauges(db), rework.of_shell(db, key)
    readings = inspections.readings(db, key, every_gauge)
    laid = _Laid(work, limits, subjects, is_painted(book, work))
    seen = laid.seen(readings, reworks)
    welders, primed = welds.welders(db, key), inspections.priming(db, key)
    overcoat = _overcoat(db, work, primed)
    asked_for = concessions.of_shell(db, key)
    looked = {
        phase: _looked(laid, seen, phase, asked_for, readings, reworks, welders, undated=_undated(work, primed))
        for phase in PHASES
    }
    return Inspection(
        found=found,
        work=work,
        limits=limits,
        subjects=subjects,
        readings=readings,
        standing=seen.standing,
        values=seen.values,
        looked=looked,
        predicted=seen.predicted,
        decided=inspections.verdicts(db, key),
        reworks=reworks,
        concessions=asked_for,
        since=_since(laid, seen, looked, asked_for, readings, reworks),
        every_gauge=every_gauge,
        welders=welders,
        photographs=inspection_photographs.of(db, key),
        priming=None if primed is None else primed[1],
        overcoat=overcoat,
    )


@dataclass(frozen=True, slots=True)
class _Laid:
    """What a shell is looked at with, whatever was read of it by when."""

    work: Work
    limits: Limits
    subjects: tuple[Subject, ...]
    painted: bool

    def seen(self, readings: Sequence[Reading], reworks: Iterable[Rework]) -> _Seen:
        mended, wrong = _mended(self.subjects, self.work, reworks), _wrong_films(readings, self.subjects)
        standing = looking.standing(readings, self.subjects, mended, wrong)
        values = looking.values_of(standing.counts, self.subjects)
        # What was measured on a primed shell is its primer: whoever paints it puts on what is expected.
        film = film_of(values, self.limits) if self.painted else self.limits.film
        return _Seen(self, standing, values, predicted(self.work.gaps, values, film))


@dataclass(frozen=True, slots=True)
class _Seen:
    """What some readings say."""

    laid: _Laid
    standing: Standing
    values: Mapping[str, Value]
    predicted: tuple[Predicted, ...]

    def looked(self, phase: Phase) -> Looked:
        foretold = self.predicted if phase is Phase.METAL and self.laid.painted else ()
        judged = all_judged([one for one in self.laid.subjects if one.phase is phase], self.values)
        return Looked(phase, judged, compared(self.laid.work.gaps, self.values, phase), foretold)


def _looked(
    laid: _Laid,
    seen: _Seen,
    phase: Phase,
    asked: Iterable[Concession],
    readings: Sequence[Reading],
    reworks: Sequence[Rework],
    welders: Mapping[str, tuple[str, ...]],
    *,
    undated: bool,
) -> Looked:
    """One phase with what is conceded of it, and what still lacks."""
    bare, metal = seen.looked(phase), phase is Phase.METAL
    zones = [zone.id for task in laid.work.tasks for zone in task.zones] if metal else []
    granted = [_granted(one, laid, phase, readings, reworks) for one in (holding(asked) if bare.out else ())]
    yes = replace(bare, conceded=looking.conceded(bare, granted, seen.standing.counts))
    return replace(
        yes,
        outgrown=looking.outgrown(yes, granted),
        unwelded=tuple(zone for zone in zones if zone not in welders),
        undated=undated and not metal,
    )


def _since(
    laid: _Laid,
    seen: _Seen,
    looked: Mapping[Phase, Looked],
    asked: Iterable[Concession],
    readings: Sequence[Reading],
    reworks: Sequence[Rework],
) -> Mapping[int, Mapping[str, Finding | None]]:
    """Of each that waits for its answer and was overtaken."""
    found: dict[int, Mapping[str, Finding | None]] = {}
    for one in (each for each in asked if each.answer is None):
        then = [(looked[phase], _granted(one, laid, phase, readings, reworks)) for phase in PHASES]
        found[one.id] = {k: v for pair in then for k, v in looking.come_since(*pair, seen.standing.counts).items()}
    return found


def _granted(
    one: Concession, laid: _Laid, phase: Phase, readings: Iterable[Reading], reworks: Iterable[Rework]
) -> Granted:
    """A yes is to what had come by the time it was asked for; where nobody had measured that, to the figure said."""
    had = [each for each in readings if each.id <= one.seen]
    mended = [each for each in reworks if each.end is not None and each.end.at <= one.asked_at]
    then = laid.seen(had, mended)
    read = {name: each.id for name, each in then.standing.counts.items()}
    out = dict(then.looked(phase).findings)
    if str(one.subject) not in read:
        out |= by_id(_as_said(one, laid.subjects))
    return Granted(str(one.subject), out, read)


def _as_said(one: Concession, subjects: Iterable[Subject]) -> Iterator[Judged]:
    """Of one thing that is measured or counted, where the words hold one figure in its unit and nothing else."""
    for subject in subjects:
        if subject.id == str(one.subject) and subject.told in (Told.MEASURE, Told.COUNT, Told.CLASS):
            said = judged(subject, value_of(subject.told, figure_in(one.measured, subject.unit)))
            yield from (said,) if said.mark is Mark.OUT else ()


def _undated(work: Work, primed: tuple[int, Priming] | None) -> bool:
    return work.coat is not None and work.coat.overcoat is not None and primed is None


def _overcoat(db: Database, work: Work, primed: tuple[int, Priming] | None) -> Overcoat | None:
    if primed is None or work.coat is None:
        return None
    by = looking.overcoat_by(primed[1], work.coat.overcoat)
    return None if by is None else Overcoat(primed[1], by, inspections.words_on(db, primed[0]))


def _mended(subjects: Iterable[Subject], work: Work, reworks: Iterable[Rework]) -> Mapping[str, datetime]:
    """Subject → when it was last mended; what was mended of a whole gap, or all over, was so at each of its points."""
    ends = {str(one.subject): one.end.at for one in reworks if one.end is not None and not one.end.withdrawn}
    gaps = {point.id: measured.gap.id for measured in work.gaps for point in measured.points}
    found: dict[str, datetime] = {}
    for subject in subjects:
        names = looking.mended_with(subject, gaps)
        if times := [ends[name] for name in names if name in ends]:
            found[subject.id] = max(times)
    return found


def _wrong_films(readings: Iterable[Reading], subjects: Iterable[Subject]) -> frozenset[int]:
    films = {one.id: one for one in subjects if one.kind is Kind.FILM}
    return frozenset(
        one.id
        for one in readings
        if one.subject in films
        and judged(films[one.subject], value_of(films[one.subject].told, one.value)).mark is Mark.OUT
    )
