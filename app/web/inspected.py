"""A shell's inspection as plain data, with its sentences in the reader's language. Shaping only; no money."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from app.documents.drawing_data import drawing_data
from app.documents.figures import Figures, locale_for
from app.documents.gap_map import GapMap, gap_map, numbers_of
from app.documents.voice import Voice
from app.domain.inspection import MEASURED_WITH, Decided, Gauge, Lack, Looked, Reading, Verdict, about, lacking
from app.services.inspecting import PHASES, Inspection
from app.web import here
from app.web.floor_recorded import concession_view, rework_view
from app.web.ordered import shell_name
from app.wording import say
from rules.inspection.judging import Compared, Judged, Predicted
from rules.inspection.subject import Kind, Limit, Phase, Subject, Told

#: What of the book a kind of subject is of.
_OF_ZONES = (Kind.WELD, Kind.SEAM, Kind.NUGGET, Kind.SPACING, Kind.OVERLAP)
_OF_POINTS = (Kind.GAP, Kind.FLUSH, Kind.PAINTED, Kind.FLUSH_PAINTED)


def row_view(one: Inspection) -> dict[str, Any]:
    """A shell in the list of those that wait."""
    shell = one.found.shell
    return {
        "shell": shell.id,
        "serial": one.serial,
        "order": one.found.whole.order.number,
        "name": shell_name(one.book, one.found.gated.frozen.settled),
        "state": shell.state.value,
        "due": one.is_due,
        "phase": (Phase.COATED if one.passed(Phase.METAL) else Phase.METAL).value,
        "phases": [_phase(one, phase) for phase in PHASES],
    }


def inspection_view(one: Inspection) -> dict[str, Any]:
    """All that a tablet shows of it."""
    voice = Voice(one.book, here.language(), Figures(locale_for(here.language()), ""))
    told = _Teller(one, voice)
    return {
        **row_view(one),
        "sheet": one.found.shell.sheet.revision if one.found.shell.sheet else None,
        "departures": [
            {"option": told.option(each.option), "choice": told.choice(each.option, each.choice),
             "usual": told.choice(each.option, each.usual)}
            for each in one.work.departures
        ],
        "subjects": [told.subject(each) for phase in PHASES for each in one.looked[phase].judged],
        "compared": [told.compared(each) for phase in PHASES for each in one.looked[phase].compared],
        "predicted": [told.predicted(each) for each in one.predicted] if one.painted else [],
        "drawing": drawing_data(told.map()),
        "gauges": [gauge_view(gauge, one) for gauge in one.gauges],
        "verdicts": [_decided(each) for each in one.decided],
        "welders": [
            {"name": name, "zones": [told.zone(zone) for zone in zones]} for name, zones in _by_welder(one).items()
        ],
        "photographs": [_photograph(one, each) for each in one.photographs],
        "stages": [
            {"stage": stop.stage, "label": voice.stage(stop.stage)}
            for stop in one.found.shell.route if stop.stage in one.found.shell.progress.through
        ],
        "concessions": [concession_view(one.book, each) for each in one.concessions],
        "reworks": [rework_view(one.book, each) for each in one.reworks if each.end is None],
        "coat": None if one.coat is None else one.coat.label,
        "painted": one.painted,
        "priming": None if one.priming is None else {"day": one.priming.day, "by_name": here.called(one.priming.by)},
        "overcoat": _overcoat(one),
    }  # fmt: skip


def gauge_view(gauge: Gauge, one: Inspection | None = None) -> dict[str, Any]:
    """`good`: whether it is in date today, where a shell says which day that is."""
    told = {"id": gauge.id, "mark": gauge.mark, "sort": gauge.sort.value}
    today = here.now().date() if one is None else one.today
    return {**told, "calibrated": gauge.calibrated, "due": gauge.due, "good": gauge.good_on(today)}


def _phase(one: Inspection, phase: Phase) -> dict[str, Any]:
    looked, passed = one.looked[phase], one.passed(phase)
    return {
        "phase": phase.value,
        "of": len(looked.judged),
        "unread": len(looked.unread),
        "failed": len(looked.failed),
        "conceded": len(looked.conceded),
        "lacks": [_lack(*lack) for lack in lacking(_passing(looked), looked)],
        "verdict": _passing(looked).value,
        "passed": None if passed is None else _decided(passed),
    }


def _passing(looked: Looked) -> Verdict:
    """By which verdict it would pass, as things stand."""
    return Verdict.CONCESSION if looked.conceded else Verdict.PASS


def _lack(lack: Lack, names: tuple[str, ...]) -> str:
    return say(f"fault.lacks-{lack.value}", here.language(), count=len(names))


def _decided(one: Decided) -> dict[str, Any]:
    return {
        "phase": one.phase.value,
        "verdict": one.verdict.value,
        "why": one.why,
        "at": one.at,
        "signed_name": here.called(one.signed),
        "second_name": None if one.second is None else here.called(one.second),
    }


def _by_welder(one: Inspection) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for zone, names in one.welders.items():
        for name in names:
            found.setdefault(name, []).append(zone)
    return found


def _photograph(one: Inspection, each: Any) -> dict[str, Any]:
    at = f"/api/shells/{one.found.shell.id}/inspection/photographs/{each.id}"
    told = {"id": each.id, "subject": each.subject, "note": each.note, "at": each.at}
    return {**told, "by_name": here.called(each.by), "url": at, "small_url": f"{at}?size=small"}


def _overcoat(one: Inspection) -> dict[str, Any] | None:
    found = one.overcoat
    if found is None:
        return None
    words = found.words
    return {
        "by": found.by,
        "past": one.today > found.by,
        "stops": found.stops(one.today),
        "words": words and words.words,
        "said_by": words and words.said_by,
    }


class _Teller:
    """Says the subjects of one inspection in the reader's language."""

    def __init__(self, one: Inspection, voice: Voice) -> None:
        self.one, self.voice, self.figures = one, voice, voice.figures
        self.numbers = numbers_of(one.work.gaps)
        made = one.book.making
        self.zones = {zone.id: zone for zone in made.zones}
        self.points = {p.id: (m.gap, p) for m in one.work.gaps for p in m.points}
        self.places = {place.hole.id: place for place in one.work.places}
        self.named = {
            **{each.id: each.label for each in one.work.datums},
            **{each.id: each.label for each in one.work.threads},
            **{each.id: each.label for each in one.work.panels},
        }

    def map(self) -> Any:
        judged = {each.subject.id: each for phase in PHASES for each in self.one.looked[phase].judged}
        expected = {each.point: each for each in self.one.predicted}
        return gap_map(
            GapMap(self.one.found.gated.frozen.settled, self.one.work.gaps, judged, expected, self._shown()), self.voice
        )

    def _shown(self) -> tuple[Compared, ...]:
        """What is painted, once that was read; else what is metal."""
        painted = self.one.looked[Phase.COATED].compared
        return painted or self.one.looked[Phase.METAL].compared

    def option(self, option: str) -> str:
        return self.voice.option(option)

    def choice(self, option: str, choice: str) -> str:
        return self.voice.choice(option, choice)

    def zone(self, zone: str) -> str:
        return self.voice.words(self.zones[zone].label) if zone in self.zones else zone

    def subject(self, judged: Judged) -> dict[str, Any]:
        subject = judged.subject
        counts, void = self.one.standing.counts.get(subject.id), self.one.standing.void.get(subject.id)
        looked = self.one.looked[subject.phase]
        sort = MEASURED_WITH.get(subject.kind)
        return {
            "id": subject.id,
            "kind": subject.kind.value,
            "phase": subject.phase.value,
            "says": say(f"looked.{subject.kind.value}", here.language()),
            "label": self._label(subject),
            "number": self.numbers.get(subject.of) if subject.kind in _OF_POINTS else None,
            "told": subject.told.value,
            "unit": subject.unit,
            "gauge_sort": None if sort is None else sort.value,
            "limit": self.limit(subject),
            "mark": judged.mark.value,
            "conceded": subject.id in looked.conceded,
            "about": about(subject.id, {}),
            "measured": self._measured(judged),
            "reading": None if counts is None else self._reading(counts),
            "void": None if void is None else {"why": void[1].value, **self._reading(void[0])},
            "earlier": [
                self._reading(each) for each in self.one.readings
                if each.subject == subject.id and (counts is None or each.id != counts.id)
            ],
        }  # fmt: skip

    def _label(self, subject: Subject) -> str:
        kind, of = subject.kind, subject.of
        if kind is Kind.FEATURE:
            choice = self.choice(of, self.one.found.gated.frozen.settled[of])
            return say("looked.feature-of", here.language(), option=self.option(of), choice=choice)
        if kind in _OF_ZONES:
            return self.zone(of)
        if kind in _OF_POINTS:
            gap, point = self.points[of]
            return f"{self.voice.words(gap.label)}, {self.voice.words(point.label)}"
        if kind is Kind.HOLE:
            place = self.places[of]
            return f"{place.letter} {self.voice.words(place.hole.label)}"
        return self.voice.words(self.named[of]) if of in self.named else ""

    def limit(self, subject: Subject) -> str:
        """What it has to be, in words."""
        limit, language = subject.limit, here.language()
        figures = {name: self._figure(getattr(limit, name)) for name in ("least", "aim", "most")}
        return say(f"limit.{_form(subject, limit)}", language, unit=subject.unit, **figures)

    def _figure(self, value: Decimal | None) -> str:
        return "" if value is None else self.figures.measure(value).replace("-", "\N{MINUS SIGN}")

    def _measured(self, judged: Judged) -> str:
        """As it is shown beside its limit; empty where nothing was read."""
        if judged.value is None:
            return ""
        told = judged.subject.told
        if judged.subject.kind is Kind.COLOUR and judged.measured is not None:
            return f"ΔE00 {self._figure(judged.measured)}"
        if isinstance(judged.value, Decimal):
            return " ".join(filter(None, (self._figure(judged.value), judged.subject.unit)))
        if told is Told.COLOUR:
            return self.one.standing.counts[judged.subject.id].value
        return say(f"value.{judged.value}", here.language())

    def _reading(self, reading: Reading) -> dict[str, Any]:
        gauge = reading.gauge
        told = {"value": reading.value, "at": reading.at, "by_name": here.called(reading.by)}
        return {**told, "gauge": None if gauge is None else gauge.mark, "due": None if gauge is None else gauge.due}

    def compared(self, one: Compared) -> dict[str, Any]:
        gap = self.points[one.points[0]][0]
        numbers = [self.numbers[point] for point in one.points]
        looked = self.one.looked[one.phase]
        by, most = self._figure(one.by), self._figure(one.most)
        says = say(f"compared.{one.kind.value}", here.language(), gap=self.voice.words(gap.label), first=numbers[0],
                   last=numbers[1], by=by, most=most)  # fmt: skip
        return {
            "id": one.id,
            "kind": one.kind.value,
            "phase": one.phase.value,
            "says": says,
            "mark": one.mark.value,
            "conceded": one.id in looked.conceded,
            "about": about(one.id, looked.gaps),
        }

    def predicted(self, one: Predicted) -> dict[str, Any]:
        least, most = (self._figure(each.quantize(Decimal("0.01"))) for each in (one.least, one.most))
        gap, point = self.points[one.point]
        limit = {"least": self._figure(one.limit.least), "most": self._figure(one.limit.most)}
        says = say("compared.predicted", here.language(), number=self.numbers[one.point], low=least, high=most,
                   gap=self.voice.words(gap.label), point=self.voice.words(point.label), **limit)  # fmt: skip
        conceded = one.id in self.one.looked[Phase.METAL].conceded
        told = {"id": one.id, "point": one.point, "says": says, "mark": one.mark.value}
        return {**told, "conceded": conceded, "about": about(one.id, {})}


def _form(subject: Subject, limit: Limit) -> str:
    """Which sentence says it."""
    if limit.expected:
        return f"is-{limit.expected}"
    if subject.told is Told.COUNT:
        return "count"
    if subject.told is Told.CLASS:
        return "class"
    if subject.told is Told.COLOUR:
        return "sample" if limit.most is None else "colour"
    names = [name for name in ("least", "aim", "most") if getattr(limit, name) is not None]
    return "-".join(names)
