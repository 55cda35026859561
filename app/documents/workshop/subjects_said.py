"""What is looked at on a shell, said in one language: its name, its limit, what was measured; on tablet and paper."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from app.documents.saying.voice import Voice
from app.documents.workshop.gap_map import numbers_of
from rules.inspection.colour import Lab
from rules.inspection.deviation import Finding
from rules.inspection.judging import Compared, Judged, Predicted
from rules.inspection.subject import Kind, Limit, Subject, Told
from rules.workshop.work import Work

OF_ZONES = (Kind.WELD, Kind.SEAM, Kind.NUGGET, Kind.SPACING, Kind.OVERLAP)
OF_POINTS = (Kind.GAP, Kind.FLUSH, Kind.PAINTED, Kind.FLUSH_PAINTED)


class SubjectsSaid:
    """Of one shell. `settled`: option → choice."""

    def __init__(self, work: Work, settled: Mapping[str, str], voice: Voice) -> None:
        self.voice, self.settled, self.work = voice, settled, work
        self.numbers = numbers_of(work.gaps)
        self.zones = {zone.id: zone.label for task in work.tasks for zone in task.zones}
        self.points = {point.id: (one.gap, point) for one in work.gaps for point in one.points}
        self.places = {place.hole.id: place for place in work.places}
        self.named = {
            **{each.id: each.label for each in work.datums},
            **{each.id: each.label for each in work.threads},
            **{each.id: each.label for each in work.panels},
        }

    def kind(self, subject: Subject) -> str:
        """What is asked of it, as in *Nugget of a spot*."""
        return self.voice.say(f"looked.{subject.kind.value}")

    def label(self, subject: Subject) -> str:
        """Which one it is; empty where there is only one."""
        kind, of = subject.kind, subject.of
        if kind is Kind.FEATURE:
            return self.voice.say("looked.feature-of", option=self.voice.option(of),
                                  choice=self.voice.choice(of, self.settled[of]))  # fmt: skip
        if kind in OF_ZONES:
            return self.zone(of)
        if kind in OF_POINTS:
            return self.point(of)
        if kind is Kind.HOLE:
            place = self.places[of]
            return f"{place.letter} {self.voice.words(place.hole.label)}"
        return self.voice.words(self.named[of]) if of in self.named else ""

    def zone(self, zone: str) -> str:
        return self.voice.words(self.zones[zone]) if zone in self.zones else zone

    def point(self, point: str) -> str:
        gap, at = self.points[point]
        return f"{self.voice.words(gap.label)}, {self.voice.words(at.label)}"

    def limit(self, subject: Subject) -> str:
        """What it has to be."""
        limit = subject.limit
        figures = {name: self.figure(getattr(limit, name)) for name in ("least", "aim", "most")}
        return self.voice.say(f"limit.{_form(subject, limit)}", unit=subject.unit, **figures)

    def figure(self, value: Decimal | None) -> str:
        return "" if value is None else self.voice.figures.measure(value)

    def measured(self, judged: Judged) -> str:
        """As it stands beside its limit; empty where nothing was read."""
        subject, value = judged.subject, judged.value
        if value is None:
            return ""
        if subject.kind is Kind.COLOUR and judged.measured is not None:
            return f"ΔE00 {self.figure(judged.measured)}"
        if isinstance(value, Decimal):
            return " ".join(filter(None, (self.figure(value), subject.unit)))
        if isinstance(value, str):
            return self.voice.say(f"value.{value}")
        return self.lab(value) if subject.told is Told.COLOUR else ""

    def lab(self, value: Lab) -> str:
        parts = (self.figure(Decimal(str(part))) for part in (value.lightness, value.a, value.b))
        return " / ".join(parts)

    def compared(self, one: Compared) -> str:
        gap = self.points[one.points[0]][0]
        first, last = (self.numbers[point] for point in one.points)
        return self.voice.say(f"compared.{one.kind.value}", gap=self.voice.words(gap.label), first=first, last=last,
                              by=self.figure(one.by), most=self.figure(one.most))  # fmt: skip

    def found(self, one: Finding) -> str:
        """How far it is out, with what else of it was looked at: which of two points is the wider, which colour."""
        if isinstance(one, Compared):
            return self.voice.say("outgrown.wider", by=self.figure(one.by), number=self.numbers[one.wider])
        if isinstance(one, Predicted):
            low, high = map(self.voice.figures.expected, (one.least, one.most))
            return self.voice.say("outgrown.leaves", low=low, high=high)
        if isinstance(one.value, Lab):
            return f"{self.measured(one)} ({self.lab(one.value)})"
        return self.measured(one)

    def should_be(self, one: Finding) -> str:
        """The limit of a finding, of whatever sort."""
        if isinstance(one, Judged):
            return self.limit(one.subject)
        least, most = (None, one.most) if isinstance(one, Compared) else (one.limit.least, one.limit.most)
        form = "most" if least is None else "least-most"
        return self.voice.say(f"limit.{form}", least=self.figure(least), most=self.figure(most), unit="mm")

    def outgrown(self, now: Finding, then: Finding | None) -> str:
        """Why what was conceded doesn't hold for it any more."""
        if then is None:
            return self.voice.say("outgrown.other", now=self.found(now))
        if _only_read_again(now, then):
            return self.voice.say("outgrown.read-again")
        return self.voice.say("outgrown.further", then=self.found(then), now=self.found(now))

    def since(self, now: Finding, then: Finding | None) -> str:
        """What was measured of it after its concession was asked for, with how it was then."""
        if then is None:
            return self.voice.say("since.other", now=self.found(now))
        if _only_read_again(now, then):
            return self.voice.say("since.read-again", now=self.found(now))
        return self.voice.say("since.further", then=self.found(then), now=self.found(now))

    def which(self, one: Finding) -> str:
        """Which it is, as in *Gap in metal: Bonnet to wing, left front*; of two points with their limit."""
        if isinstance(one, Compared):
            return self.compared(one)
        if isinstance(one, Predicted):
            return self.predicted(one)
        return ": ".join(filter(None, (self.kind(one.subject), self.label(one.subject))))

    def predicted(self, one: Predicted) -> str:
        low, high = map(self.voice.figures.expected, (one.least, one.most))
        return self.voice.say("compared.predicted", number=self.numbers[one.point], point=self.point(one.point),
                              low=low, high=high, least=self.figure(one.limit.least),
                              most=self.figure(one.limit.most))  # fmt: skip


def _only_read_again(now: Finding, then: Finding) -> bool:
    """Whether it is what it was, in words that don't say how far."""
    if not isinstance(now, Judged) or not isinstance(then, Judged):
        return False
    return bool(now.subject.limit.expected) and now.value == then.value


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
    return "-".join(name for name in ("least", "aim", "most") if getattr(limit, name) is not None)
