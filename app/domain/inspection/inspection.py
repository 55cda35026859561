"""An inspection: which readings count, what still lacks, and which verdict can be given. Pure.

A reading counts until another of the same subject comes after it. One that was taken with a gauge out of date, before
the place was mended, or before a wrong film was put right is kept and shown, and its subject is to be read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from enum import StrEnum

from rules.inspection.deviation import Finding, by_id, has_scale, id_of, no_worse
from rules.inspection.judging import Compared, Judged, Mark, Predicted
from rules.inspection.subject import Kind, Phase, Subject, Value, value_of


class GaugeSort(StrEnum):
    """What a gauge measures with: feeler, step (flush), calliper, trammel (lengths), film, colour."""

    FEELER = "feeler"
    STEP = "step"
    CALLIPER = "calliper"
    TRAMMEL = "trammel"
    FILM = "film"
    COLOUR = "colour"


#: What each kind of subject is measured with. All else is looked at or counted, and needs no gauge.
MEASURED_WITH: Mapping[Kind, GaugeSort] = {
    **dict.fromkeys((Kind.NUGGET, Kind.SPACING, Kind.OVERLAP), GaugeSort.CALLIPER),
    Kind.DATUM: GaugeSort.TRAMMEL,
    **dict.fromkeys((Kind.GAP, Kind.PAINTED), GaugeSort.FEELER),
    **dict.fromkeys((Kind.FLUSH, Kind.FLUSH_PAINTED), GaugeSort.STEP),
    Kind.FILM: GaugeSort.FILM,
    **dict.fromkeys((Kind.SAMPLE, Kind.COLOUR), GaugeSort.COLOUR),
}


@dataclass(frozen=True, slots=True)
class Gauge:
    """`mark`: what is engraved on it. Calibrated on `calibrated`, and good up to and including `due`."""

    id: int
    mark: str
    sort: GaugeSort
    calibrated: date
    due: date

    def good_on(self, day: date) -> bool:
        return self.calibrated <= day <= self.due


def last_calibrated(every: Iterable[Gauge]) -> tuple[Gauge, ...]:
    """Each gauge as it was last calibrated, by its mark; `every` calibration, the first first."""
    last = {gauge.mark: gauge for gauge in every}
    return tuple(last[mark] for mark in sorted(last))


@dataclass(frozen=True, slots=True)
class Reading:
    """`subject`: its id. `at`: when it was taken, `came`: when it came. `key`: the tablet's own id of it."""

    id: int
    subject: str
    value: str
    gauge: Gauge | None
    at: datetime
    came: datetime
    by: str
    key: str


class Void(StrEnum):
    """Why a reading doesn't count."""

    GAUGE = "gauge"
    MENDED = "mended"
    FILM = "film"


class Verdict(StrEnum):
    PASS = "pass"  # noqa: S105 - a verdict, no password
    CONCESSION = "concession"
    REWORK = "rework"
    REJECT = "reject"

    @property
    def passes(self) -> bool:
        return self in (Verdict.PASS, Verdict.CONCESSION)


@dataclass(frozen=True, slots=True)
class Decided:
    """`signed`: whose code signed it; `second`: who signed beside him, where he had welded any of it himself."""

    phase: Phase
    verdict: Verdict
    why: str
    at: datetime
    by: str
    signed: str
    second: str | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """`counts`: subject → the reading that counts. `void`: subject → the last one that doesn't, and why."""

    counts: Mapping[str, Reading]
    void: Mapping[str, tuple[Reading, Void]]


def standing(
    readings: Sequence[Reading],
    subjects: Iterable[Subject],
    mended: Mapping[str, datetime],
    wrong_films: frozenset[int],
) -> Standing:
    """`mended`: subject → when it was last mended. `wrong_films`: ids of film readings that were out of limits."""
    kinds = {one.id: one.kind for one in subjects}
    again = _film_put_right(readings, wrong_films)
    counts: dict[str, Reading] = {}
    void: dict[str, tuple[Reading, Void]] = {}
    for one in sorted(readings, key=lambda reading: (reading.at, reading.id)):
        why = _void(one, kinds.get(one.subject), mended.get(one.subject), again)
        if why is None:
            counts[one.subject] = one
            void.pop(one.subject, None)
        else:
            void[one.subject] = one, why
            if why is not Void.GAUGE:
                counts.pop(one.subject, None)
    return Standing(counts, {name: told for name, told in void.items() if name not in counts})


def _void(one: Reading, kind: Kind | None, mended: datetime | None, again: datetime | None) -> Void | None:
    if one.gauge is not None and not one.gauge.good_on(one.at.date()):
        return Void.GAUGE
    if mended is not None and one.at <= mended:
        return Void.MENDED
    painted = kind in (Kind.PAINTED, Kind.FLUSH_PAINTED)
    return Void.FILM if painted and again is not None and one.at < again else None


def _film_put_right(readings: Iterable[Reading], wrong: frozenset[int]) -> datetime | None:
    """The last film reading from the first wrong one on: painted gaps are read after it."""
    films = [one for one in readings if one.subject.startswith(f"{Kind.FILM.value}:")]
    first = min((one.at for one in films if one.id in wrong), default=None)
    return None if first is None else max(one.at for one in films if one.at >= first)


def values_of(counts: Mapping[str, Reading], subjects: Iterable[Subject]) -> dict[str, Value]:
    """subject → what was read. What can't be read any more, by a book that asks otherwise, is left out."""
    told = {one.id: one.told for one in subjects}
    found = ((name, value_of(told[name], one.value)) for name, one in counts.items() if name in told)
    return {name: value for name, value in found if value is not None}


@dataclass(frozen=True, slots=True)
class Looked:
    """One phase of a shell's inspection. `predicted` counts where paint is put on. `conceded`: ids of what may stay so.

    `outgrown`: those that were conceded, and not as far or as they are out now → as they were then.
    `unwelded`: zones for which nobody signed. `undated`: it has a primer that is to be overcoated, and no day.
    """

    phase: Phase
    judged: tuple[Judged, ...]
    compared: tuple[Compared, ...] = ()
    predicted: tuple[Predicted, ...] = ()
    conceded: frozenset[str] = frozenset()
    outgrown: Mapping[str, Finding | None] = field(default_factory=dict)
    unwelded: tuple[str, ...] = ()
    undated: bool = False

    @property
    def unread(self) -> tuple[str, ...]:
        """Ids of the subjects that are still to be read."""
        return tuple(one.subject.id for one in self.judged if one.mark is Mark.UNREAD)

    @property
    def out(self) -> tuple[str, ...]:
        """Ids of everything that is out of its limits, conceded or not."""
        return tuple(self.findings)

    @property
    def findings(self) -> Mapping[str, Finding]:
        """The same with how far they are out."""
        every: tuple[Finding, ...] = (*self.judged, *self.compared, *self.predicted)
        return by_id(one for one in every if one.mark is Mark.OUT)

    @property
    def failed(self) -> tuple[str, ...]:
        """Those that nobody has conceded."""
        return tuple(one for one in self.out if one not in self.conceded)

    @property
    def gaps(self) -> Mapping[str, str]:
        """Ids of what compares two points → their whole gap, as in `gap:door-front`."""
        return {one.id: f"{_WHOLE[one.phase]}:{one.gap}" for one in self.compared}


#: What is conceded, mended or welded as one thing, by what of it is looked at.
_OF_ONE = {
    **dict.fromkeys((Kind.NUGGET.value, Kind.SPACING.value, Kind.OVERLAP.value, Kind.SEAM.value), Kind.WELD.value),
    "predicted": Kind.PAINTED.value,
}

#: The whole of a gap is of its metal and of its paint by itself.
_WHOLE = {Phase.METAL: Kind.GAP.value, Phase.COATED: Kind.PAINTED.value}


def about(finding: str, gaps: Mapping[str, str]) -> str:
    """What a concession for it is of: `nugget:z-sills` → `weld:z-sills`. `gaps`: as in `Looked.gaps`."""
    kind, _, of = gaps.get(finding, finding).partition(":")
    return f"{_OF_ONE.get(kind, kind)}:{of}" if of else kind


@dataclass(frozen=True, slots=True)
class Granted:
    """A yes with what it is to: all that was `out` when it was asked for, by id, and `read`: subject → that reading."""

    about: str
    out: Mapping[str, Finding]
    read: Mapping[str, int]

    def covers(self, now: Finding, counts: Mapping[str, Reading]) -> bool:
        """Whether it is out as it was then, or less. A *no* is covered as it was read, and by no other reading."""
        then = self.out.get(id_of(now))
        if then is None:
            return False
        if no_worse(now, then):
            return True
        reading = counts.get(id_of(now))
        return not has_scale(now) and reading is not None and reading.id == self.read.get(id_of(now))


def conceded(looked: Looked, granted: Iterable[Granted], counts: Mapping[str, Reading]) -> frozenset[str]:
    """Ids of what is out of its limits and may stay so."""
    yes = tuple(granted)
    return frozenset(
        name
        for name, now in looked.findings.items()
        if any(one.covers(now, counts) for one in _about(name, looked, yes))
    )


def outgrown(looked: Looked, granted: Iterable[Granted]) -> Mapping[str, Finding | None]:
    """What a yes is about and doesn't cover → as it was when that was asked for; None: it wasn't out then."""
    yes = tuple(granted)
    found = {name: _about(name, looked, yes) for name in looked.failed}
    return {name: _then(name, about) for name, about in found.items() if about}


def come_since(looked: Looked, asked: Granted, counts: Mapping[str, Reading]) -> Mapping[str, Finding | None]:
    """What a yes to this wouldn't cover, of all that it is about → as that was when it was asked for, as `outgrown`."""
    covered = conceded(looked, (asked,), counts)
    return outgrown(replace(looked, conceded=looked.conceded | covered), (asked,))


def _about(name: str, looked: Looked, granted: Iterable[Granted]) -> tuple[Granted, ...]:
    """Those that are about it by itself, or about all of its sort."""
    whole = about(name, looked.gaps)
    return tuple(one for one in granted if one.about in (whole, whole.partition(":")[0]))


def _then(name: str, granted: Iterable[Granted]) -> Finding | None:
    return next((one.out[name] for one in granted if name in one.out), None)


def mended_with(subject: Subject, gaps: Mapping[str, str]) -> tuple[str, ...]:
    """What rework may be said to be of that mends this subject, too. `gaps`: point → its gap."""
    name = about(subject.id, {})
    kind, _, of = name.partition(":")
    return tuple(dict.fromkeys((name, kind, f"{kind}:{gaps[of]}" if of in gaps else name)))


class Lack(StrEnum):
    """What keeps a verdict from being given."""

    UNREAD = "unread"
    FAILED = "failed"
    OUTGROWN = "outgrown"
    CONCEDED = "conceded"
    NOT_CONCEDED = "not-conceded"
    NOTHING_FAILED = "nothing-failed"
    UNWELDED = "unwelded"
    UNDATED = "undated"


def lacking(verdict: Verdict, looked: Looked) -> tuple[tuple[Lack, tuple[str, ...]], ...]:
    """What keeps this verdict from being given, each with what it is of; nothing where it can."""
    if verdict is Verdict.REJECT:
        return ()
    if verdict is Verdict.REWORK:
        return () if looked.failed else ((Lack.NOTHING_FAILED, ()),)
    return tuple(_lacking(verdict, looked))


def _lacking(verdict: Verdict, looked: Looked) -> Iterator[tuple[Lack, tuple[str, ...]]]:
    if looked.unread:
        yield Lack.UNREAD, looked.unread
    if looked.failed:
        yield Lack.FAILED, looked.failed
    if looked.outgrown:
        yield Lack.OUTGROWN, tuple(looked.outgrown)
    if looked.unwelded:
        yield Lack.UNWELDED, looked.unwelded
    if looked.undated:
        yield Lack.UNDATED, ()
    conceded = tuple(one for one in looked.out if one in looked.conceded)
    if verdict is Verdict.PASS and conceded:
        yield Lack.CONCEDED, conceded
    if verdict is Verdict.CONCESSION and not looked.out:
        yield Lack.NOT_CONCEDED, ()


def own_zones(person: str, welders: Mapping[str, Iterable[str]]) -> tuple[str, ...]:
    """The zones that he welded himself, and so doesn't sign for alone. `welders`: zone → names."""
    return tuple(zone for zone, names in welders.items() if person in names)


def passed(decided: Iterable[Decided], phase: Phase, since: datetime | None = None) -> Decided | None:
    """The last verdict of that phase, where it lets the shell go on and nothing was mended since."""
    last = next((one for one in reversed(tuple(decided)) if one.phase is phase), None)
    holds = last is not None and last.verdict.passes and (since is None or last.at > since)
    return last if holds else None


@dataclass(frozen=True, slots=True)
class Priming:
    """The day on which a shell was primed (or prepared and primed anew), with which coat of the book."""

    coat: str
    day: date
    at: datetime
    by: str


def overcoat_by(priming: Priming, days: int | None) -> date | None:
    """The last day on which it may be overcoated as it is; None where the coat needs none."""
    return None if days is None else priming.day + timedelta(days=days)
