"""The inspection record of one shell: every reading beside its limit, the gap map, what was conceded, who signed.

It lays out what it is handed and judges nothing. What was not read is printed as that: a record never looks fuller
than the inspection was.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, PageBreak, Spacer

from app.documents.contents import Firm, Sheet
from app.documents.drawings.flowable import DrawnShell
from app.documents.saying.figures import Figures
from app.documents.saying.voice import Voice
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, FINE, HEAVY, ROW, ROW_STRONG, SMALL, STRONG, opening, style, text
from app.documents.typesetting.ruled import (
    Cell,
    Command,
    abreast,
    bare,
    between,
    boxed,
    dense,
    headed,
    ruled,
    shares,
    under,
    upright,
)
from app.documents.typesetting.stationery import SIZES, Field, Stationery, firm_sheets, inner_width, print_best
from app.documents.workshop.gap_map import GapMap, gap_map
from app.documents.workshop.subjects_said import SubjectsSaid
from rules.inspection.deviation import Finding, id_of
from rules.inspection.judging import Compared, Judged, Mark, Predicted
from rules.inspection.subject import Kind, Phase
from rules.model import Book
from rules.workshop.work import Work

_SERIAL = style("record-serial", 24, 28, fontName=STRONG.fontName)
_VERDICT = style("record-verdict", 13, 16, fontName=STRONG.fontName)

_SPOT = (Kind.NUGGET, Kind.SPACING, Kind.OVERLAP)


@dataclass(frozen=True, slots=True)
class Signed:
    """A verdict as it is printed: names, not sign-ins."""

    phase: Phase
    verdict: str
    why: str
    day: date
    signed: str
    second: str = ""


@dataclass(frozen=True, slots=True)
class Excepted:
    """Something conceded or reworked. `about` in the reader's words; `said`: what was said of it, and by whom."""

    about: str
    said: str


@dataclass(frozen=True, slots=True)
class GaugeUsed:
    mark: str
    sort: str
    calibrated: date
    due: date


@dataclass(frozen=True, slots=True)
class InspectionRecord:
    """`judged`, `compared`: of both phases. `readers`: subject → who read it. `welders`: zone → who welded it.

    `outgrown`: what was conceded otherwise than it is → as it was then.
    `passed`: whether the metal has passed; until then it is open. `overcoat`: the last day, if any. `cautions`: ids.
    """

    book: Book
    firm: Firm
    serial: str
    order: str
    sheet: int | None
    settled: Mapping[str, str]
    work: Work
    judged: tuple[Judged, ...]
    compared: tuple[Compared, ...]
    predicted: tuple[Predicted, ...]
    readers: Mapping[str, str]
    welders: Mapping[str, tuple[str, ...]]
    signed: tuple[Signed, ...]
    concessions: tuple[Excepted, ...]
    reworks: tuple[Excepted, ...]
    gauges: tuple[GaugeUsed, ...]
    photographs: int
    cautions: tuple[str, ...]
    printed: date
    passed: bool
    outgrown: Mapping[str, Finding | None]
    primed: date | None = None
    overcoat: date | None = None
    language: str = "en"
    locale: str = "en_GB"
    size: Sheet = Sheet.A4


def inspection_record_pdf(record: InspectionRecord, font_folder: Path = fonts.FOLDER) -> bytes:
    """As PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    return _Writer(record).pdf()


class _Writer:
    def __init__(self, record: InspectionRecord) -> None:
        self.record = record
        self.voice = Voice(record.book, record.language, Figures(record.locale, ""))
        self.say = self.voice.say
        self.said = SubjectsSaid(record.work, record.settled, self.voice)
        self.by_id = {one.subject.id: one for one in record.judged}
        self.expected = {one.point: one for one in record.predicted}
        self.width = inner_width(record.size)

    def pdf(self) -> bytes:
        return print_best(self._look(), (list(self._story(parted)) for parted in (False, True)))

    def _look(self) -> Stationery:
        record, title = self.record, self.say("record.document-title", serial=self.record.serial)
        sheet = "–" if record.sheet is None else str(record.sheet)
        return firm_sheets(
            self.say,
            record.locale,
            SIZES[record.size],
            record.firm.name,
            title,
            Field(self.say("record.title"), record.serial, 0.28, strong=True),
            Field(self.say("record.sheet"), sheet, 0.18, strong=True),
            Field(self.say("record.order"), record.order, 0.2),
            Field(self.say("record.printed"), self.voice.figures.short_day(record.printed), 0.16),
            Field(self.say("record.book"), str(record.book.number), 0.1),
            across="" if record.passed else self.say("record.open"),
        )

    def _story(self, parted: bool) -> Iterator[Flowable]:
        """`parted`: what follows the holes begins a sheet, lest a few lines stand alone on the last."""
        yield self._head()
        yield from self._verdicts()
        yield from self._overcoat()
        yield from self._not_standard()
        yield from self._exceptions()
        yield from self._features()
        yield from self._welds()
        yield from self._plain("record.datums", Kind.DATUM)
        yield from self._gaps()
        yield from self._plain("record.holes", Kind.HOLE)
        if parted:
            yield PageBreak()
        yield from self._plain("record.threads", Kind.THREAD)
        yield from self._plain("record.surface", Kind.SURFACE)
        yield from self._coat()
        yield from self._gauges()
        yield from self._cautions()

    def _head(self) -> Flowable:
        record = self.record
        said = [
            text(f"{record.firm.name} · {self.say('record.title')}", STRONG),
            text(record.serial, _SERIAL),
            text(self.voice.told(record.settled), _VERDICT),
            text(self.say("record.of", order=record.order, sheet=record.sheet or "–"), CELL),
        ]
        return ruled([[tuple(said)]], [self.width], *bare(), under(0, HEAVY))

    def _verdicts(self) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [self._verdict(one) for one in self.record.signed]
        if not rows:
            rows = [[text(self.say("record.none-signed"), _VERDICT), ""]]
        yield Spacer(0, 2 * mm)
        yield ruled(rows, shares(self.width, 50, 50), boxed(HEAVY), between())

    def _overcoat(self) -> Iterator[Flowable]:
        if self.record.overcoat is not None and self.record.primed is not None:
            by, primed = map(self.voice.figures.day, (self.record.overcoat, self.record.primed))
            box = [[text(self.say("record.overcoat", day=by, primed=primed), _VERDICT)]]
            yield Spacer(0, 2 * mm)
            yield ruled(box, [self.width], boxed(HEAVY))

    def _verdict(self, one: Signed) -> list[Cell]:
        names = one.signed + (f" + {one.second}" if one.second else "")
        day = self.voice.figures.day(one.day)
        said = [text(self.say("record.signed", names=names, day=day), STRONG)]
        said += [text(one.why, CELL)] if one.why else []
        verdict = self.say(f"record.verdict-{one.verdict}")
        return [text(f"{self.say(f'record.{one.phase.value}')}: {verdict}", _VERDICT), tuple(said)]

    def _not_standard(self) -> Iterator[Flowable]:
        rows: list[list[Cell]] = []
        for one in self.record.work.departures:
            chosen = f"{self.voice.option(one.option)}: {self.voice.choice(one.option, one.choice)}"
            usual = self.say("sheet.usual", usual=self.voice.choice(one.option, one.usual))
            rows.append([text(f"▲ {chosen}", STRONG), text(usual, CELL)])
        if rows:
            table = ruled(rows, shares(self.width, 60, 40), boxed(), between(), *dense())
            yield KeepTogether([opening(self.say("sheet.not-standard")), table])

    def _exceptions(self) -> Iterator[Flowable]:
        """What is out of its limits, and what became of it: before all that is as it should be."""
        out = [self._out_row(one) for one in self.record.judged if one.mark is Mark.OUT]
        told: list[tuple[str, Finding]] = []
        told += [(self.said.compared(one), one) for one in self.record.compared if one.mark is Mark.OUT]
        told += [(self.said.predicted(one), one) for one in self.record.predicted if one.mark is Mark.OUT]
        out += [[self._named(said, one), "", ""] for said, one in told]
        yield from self._table("record.out", ("what", "found", "should-be"), out, (60, 18, 22))
        for key, rows in (("concessions", self.record.concessions), ("reworks", self.record.reworks)):
            each: list[list[Cell]] = [[text(one.about, ROW_STRONG), text(one.said, ROW)] for one in rows]
            yield from self._table(f"record.{key}", ("what", "said"), each, (38, 62))

    def _out_row(self, one: Judged) -> list[Cell]:
        label = self.said.label(one.subject)
        name = f"{self.said.kind(one.subject)}: {label}" if label else self.said.kind(one.subject)
        return [
            self._named(name, one),
            text(self.said.measured(one), ROW_STRONG),
            text(self.said.limit(one.subject), ROW),
        ]

    def _named(self, name: str, one: Finding) -> Cell:
        """With what keeps an earlier concession from holding for it."""
        then = self.record.outgrown
        if id_of(one) not in then:
            return text(name, ROW_STRONG)
        return (text(name, ROW_STRONG), text(self.said.outgrown(one, then[id_of(one)]), ROW))

    def _features(self) -> Iterator[Flowable]:
        order = {option.id: at for at, option in enumerate(self.record.book.options)}
        found = [one for one in self.record.judged if one.subject.kind is Kind.FEATURE]
        found.sort(key=lambda one: order.get(one.subject.of, len(order)))
        if found:
            yield opening(self.say("record.features"))
            yield abreast([self._feature(one) for one in found], self.width, (76, 24), boxed(), between(), *dense())

    def _feature(self, one: Judged) -> list[Cell]:
        return [text(self.said.label(one.subject), ROW), text(self._found(one), ROW_STRONG)]

    def _found(self, one: Judged | None) -> str:
        """What was found with its sign; a dash where nobody has read it."""
        if one is None:
            return ""
        if one.mark is Mark.UNREAD:
            return self.say("record.unread")
        return f"{_SIGNS[one.mark]} {self.said.measured(one)}"

    def _welds(self) -> Iterator[Flowable]:
        zones = [one.subject.of for one in self.record.judged if one.subject.kind is Kind.WELD]
        rows = [self._zone(zone) for zone in zones]
        heads = ("zone", "welded-by", "count", "nugget", "spacing", "overlap", "seam")
        yield from self._table("record.welds", heads, rows, (25, 12, 7, 21, 14, 14, 7))

    def _zone(self, zone: str) -> list[Cell]:
        welders = ", ".join(self.record.welders.get(zone, ())) or self.say("record.nobody")
        cells: list[Cell] = [text(self.said.zone(zone), ROW), text(welders, ROW)]
        for kind in (Kind.WELD, *_SPOT, Kind.SEAM):
            one = self.by_id.get(f"{kind.value}:{zone}")
            limit = [] if one is None or kind is Kind.SEAM else [text(self.said.limit(one.subject), FINE)]
            cells.append((text(self._found(one), ROW_STRONG), *limit))
        return cells

    def _plain(self, key: str, *kinds: Kind) -> Iterator[Flowable]:
        rows = [self._row(one) for one in self.record.judged if one.subject.kind in kinds]
        yield from self._table(key, ("what", "should-be", "found", "read-by"), rows, (44, 24, 18, 14))

    def _row(self, one: Judged) -> list[Cell]:
        subject = one.subject
        name = self.said.label(subject) or self.said.kind(subject)
        return [text(name, ROW), text(self.said.limit(subject), ROW), text(self._found(one), ROW_STRONG),
                text(self.record.readers.get(subject.id, ""), FINE)]  # fmt: skip

    def _gaps(self) -> Iterator[Flowable]:
        rows = [self._point(point) for point in self.said.numbers]
        heads = ("number", "point", "gap-metal", "flush", "expected", "gap-painted", "flush-painted")
        yield from self._table("record.gaps", heads, rows, (5, 35, 15, 14, 10, 11, 10))
        if rows:
            yield from self._map()
            compared: list[list[Cell]] = [
                [text(_SIGNS[one.mark], ROW_STRONG), text(self.said.compared(one), ROW)] for one in self.record.compared
            ]
            yield from self._table("record.compared", (), compared, (6, 94))

    def _point(self, point: str) -> list[Cell]:
        expected = self.expected.get(point)
        said = self.voice.figures.expected
        span = "" if expected is None else f"{said(expected.least)}–{said(expected.most)}"
        metal, flush = self.by_id.get(f"gap:{point}"), self.by_id.get(f"flush:{point}")
        painted, level = self.by_id.get(f"painted:{point}"), self.by_id.get(f"flush-painted:{point}")
        return [
            text(str(self.said.numbers[point]), ROW_STRONG),
            text(self.said.point(point), ROW),
            self._with_limit(metal),
            self._with_limit(flush),
            text(span, ROW),
            text(self._found(painted), ROW_STRONG),
            text(self._found(level), ROW_STRONG),
        ]

    def _with_limit(self, one: Judged | None) -> Cell:
        if one is None:
            return ""
        return (text(self._found(one), ROW_STRONG), text(self.said.limit(one.subject), FINE))

    def _map(self) -> Iterator[Flowable]:
        record = self.record
        shown = GapMap(record.settled, record.work.gaps, self.by_id, self.expected, record.compared)
        drawn = DrawnShell(gap_map(shown, self.voice), self.width)
        yield KeepTogether([opening(self.say("map.title")), drawn, text(self.say("map.key"), FINE)])

    def _coat(self) -> Iterator[Flowable]:
        kinds = (Kind.FILM, Kind.ADHESION, Kind.SAMPLE, Kind.COLOUR)
        coat = self.record.work.coat
        if coat is not None:
            yield CondPageBreak(28 * mm)
            yield opening(self.say("record.coat", coat=self.voice.words(coat.label)))
        yield from self._plain("", *kinds)

    def _cautions(self) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [
            [text("!", STRONG), text(self.voice.caution(one), CELL)] for one in self.record.cautions
        ]
        if rows:
            table = ruled(rows, [7 * mm, self.width - 7 * mm], boxed(HEAVY), between())
            yield KeepTogether([opening(self.say("sheet.cautions")), table])

    def _gauges(self) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [
            [text(one.mark, ROW_STRONG), text(self.say(f"record.gauge-{one.sort}"), ROW),
             text(self.voice.figures.short_day(one.calibrated), ROW), text(self.voice.figures.short_day(one.due), ROW)]
            for one in self.record.gauges
        ]  # fmt: skip
        yield from self._table("record.gauges", ("mark", "measures", "calibrated", "due"), rows, (22, 38, 20, 20))
        yield text(self.say("record.signs"), FINE)
        if self.record.photographs:
            yield text(self.say("record.photographs", count=self.record.photographs), FINE)

    def _table(
        self, key: str, heads: Sequence[str], rows: Sequence[Sequence[Cell]], parts: tuple[float, ...]
    ) -> Iterator[Flowable]:
        if not rows:
            return
        if key:
            yield CondPageBreak(28 * mm)
            yield opening(self.say(key))
        head: list[list[Cell]] = [[text(self.say(f"record.{name}"), SMALL) for name in heads]] if heads else []
        rules: tuple[Command, ...] = headed() if heads else ()
        yield ruled([*head, *rows], shares(self.width, *parts), boxed(), between(), upright(), *dense(), *rules,
                    heads=len(head))  # fmt: skip


#: A sign beside what was found, so that it is read in black and white.
_SIGNS = {Mark.WITHIN: "✓", Mark.BELOW_AIM: "✓", Mark.OUT: "✗", Mark.UNREAD: "–"}
