"""A shell's inspection as plain data, with its sentences in the reader's language. Shaping only; no money."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from app.documents.drawings.data import drawing_data
from app.documents.drawings.drawing import Drawing
from app.documents.saying.voice import Voice
from app.documents.workshop.gap_map import GapMap, gap_map
from app.documents.workshop.subjects_said import OF_POINTS, SubjectsSaid
from app.domain.inspection.inspection import (
    MEASURED_WITH,
    Decided,
    Gauge,
    Lack,
    Looked,
    Reading,
    Verdict,
    about,
    lacking,
)
from app.services.inspection.inspecting import PHASES, Inspection
from app.store.inspection_photographs import SubjectPhotograph
from app.web import here
from app.web.views.floor_recorded import concession_view, rework_view
from app.web.views.ordered import shell_name
from app.web.views.things import slots
from app.wording import say
from rules.inspection.deviation import Finding, id_of
from rules.inspection.judging import Compared, Judged, Predicted
from rules.inspection.subject import Phase


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
    voice = here.voice(one.book)
    told = _Teller(one, voice)
    return {
        **row_view(one),
        "sheet": one.found.shell.sheet.revision if one.found.shell.sheet else None,
        "departures": [
            {"option": voice.option(each.option), "choice": voice.choice(each.option, each.choice),
             "usual": voice.choice(each.option, each.usual)}
            for each in one.work.departures
        ],
        "subjects": [told.subject(each) for phase in PHASES for each in one.looked[phase].judged],
        "compared": [told.compared(each) for phase in PHASES for each in one.looked[phase].compared],
        "predicted": [told.predicted(each) for each in one.predicted] if one.painted else [],
        "drawing": drawing_data(told.map()),
        "gauges": [gauge_view(gauge, one.today) for gauge in one.gauges],
        "verdicts": [_decided(each) for each in one.decided],
        "welders": [
            {"name": name, "zones": [told.said.zone(zone) for zone in zones]} for name, zones in _by_welder(one).items()
        ],
        "photographs": [_photograph(one, each) for each in one.photographs],
        "stages": [
            {"stage": stop.stage, "label": voice.stage(stop.stage)}
            for stop in one.found.shell.route if stop.stage in one.found.shell.progress.through
        ],
        "concessions": [concession_view(one.book, each, one) for each in one.concessions],
        "reworks": [rework_view(one.book, each) for each in one.reworks if each.end is None],
        "coat": None if one.coat is None else one.coat.label,
        "painted": one.painted,
        "priming": None if one.priming is None else {"day": one.priming.day, "by_name": here.called(one.priming.by)},
        "overcoat": _overcoat(one),
    }  # fmt: skip


def gauge_view(gauge: Gauge, today: date) -> dict[str, Any]:
    """`good`: whether it is in date today, where the firm is."""
    told = slots(gauge, "id", "mark", "calibrated", "due")
    return {**told, "sort": gauge.sort.value, "good": gauge.good_on(today)}


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
        **slots(one, "why", "at"),
        "signed_name": here.called(one.signed),
        "second_name": None if one.second is None else here.called(one.second),
    }


def _by_welder(one: Inspection) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for zone, names in one.welders.items():
        for name in names:
            found.setdefault(name, []).append(zone)
    return found


def _photograph(one: Inspection, each: SubjectPhotograph) -> dict[str, Any]:
    at = f"/api/shells/{one.found.shell.id}/inspection/photographs/{each.id}"
    told = slots(each, "id", "subject", "note", "at")
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
    """The subjects of one inspection with what was read of them, in the reader's language."""

    def __init__(self, one: Inspection, voice: Voice) -> None:
        self.one, self.voice = one, voice
        self.said = SubjectsSaid(one.work, one.found.gated.frozen.settled, voice)

    def map(self) -> Drawing:
        judged = {each.subject.id: each for phase in PHASES for each in self.one.looked[phase].judged}
        expected = {each.point: each for each in self.one.predicted}
        settled = self.one.found.gated.frozen.settled
        return gap_map(GapMap(settled, self.one.work.gaps, judged, expected, self._compared()), self.voice)

    def _compared(self) -> tuple[Compared, ...]:
        """What is painted, once that was read; else what is metal."""
        return self.one.looked[Phase.COATED].compared or self.one.looked[Phase.METAL].compared

    def subject(self, judged: Judged) -> dict[str, Any]:
        subject = judged.subject
        counts, void = self.one.standing.counts.get(subject.id), self.one.standing.void.get(subject.id)
        sort = MEASURED_WITH.get(subject.kind)
        return {
            "id": subject.id,
            "kind": subject.kind.value,
            "phase": subject.phase.value,
            "says": self.said.kind(subject),
            "label": self.said.label(subject),
            "number": self.said.numbers.get(subject.of) if subject.kind in OF_POINTS else None,
            "told": subject.told.value,
            "unit": subject.unit,
            "gauge_sort": None if sort is None else sort.value,
            "limit": self.said.limit(subject),
            "mark": judged.mark.value,
            "conceded": subject.id in self.one.looked[subject.phase].conceded,
            "outgrown": self._outgrown(judged, subject.phase),
            "about": about(subject.id, {}),
            "measured": self.said.measured(judged),
            "reading": None if counts is None else self._reading(counts),
            "void": None if void is None else {"why": void[1].value, **self._reading(void[0])},
            "earlier": [self._reading(each) for each in self.one.readings
                        if each.subject == subject.id and (counts is None or each.id != counts.id)],
        }  # fmt: skip

    def _reading(self, reading: Reading) -> dict[str, Any]:
        gauge = reading.gauge
        told = {"value": reading.value, "at": reading.at, "by_name": here.called(reading.by)}
        return {**told, "gauge": None if gauge is None else gauge.mark, "due": None if gauge is None else gauge.due}

    def compared(self, one: Compared) -> dict[str, Any]:
        looked = self.one.looked[one.phase]
        return {
            "id": one.id,
            "kind": one.kind.value,
            "phase": one.phase.value,
            "says": self.said.compared(one),
            "mark": one.mark.value,
            "conceded": one.id in looked.conceded,
            "outgrown": self._outgrown(one, one.phase),
            "about": about(one.id, looked.gaps),
            **self._found(one),
        }

    def predicted(self, one: Predicted) -> dict[str, Any]:
        conceded = one.id in self.one.looked[Phase.METAL].conceded
        told = {"id": one.id, "point": one.point, "says": self.said.predicted(one), "mark": one.mark.value}
        asked = {"outgrown": self._outgrown(one, Phase.METAL), "about": about(one.id, {})}
        return {**told, "conceded": conceded, **asked, **self._found(one)}

    def _found(self, one: Finding) -> dict[str, str]:
        """As a concession for it is asked for."""
        return {"found": self.said.found(one), "should_be": self.said.should_be(one)}

    def _outgrown(self, one: Finding, phase: Phase) -> str | None:
        found = self.one.looked[phase].outgrown
        return self.said.outgrown(one, found[id_of(one)]) if id_of(one) in found else None
