"""The build sheet of one shell: what it is, what is done to it stage by stage, and what it must measure. No price.

It lays out what `BuildSheet` carries and decides nothing. What has to be read at arm's length is lettered in 14 points.
The code stands at the upper right: the staple is at the upper left.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from pathlib import Path

from reportlab.lib.pagesizes import A3, A4
from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, PageBreak, Spacer

from app.documents.contents import Firm
from app.documents.drawings.drawing import Arrangement, Standing, shell_drawing
from app.documents.drawings.flowable import DrawnShell
from app.documents.saying.figures import Figures
from app.documents.saying.voice import Voice
from app.documents.shared.answers import part_name, part_title
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, HEAVY, SMALL, STAMP, STRONG, opening, style, text, whole_words
from app.documents.typesetting.marks import Code, TickBox
from app.documents.typesetting.ruled import (
    CELL_SIDES,
    Cell,
    Command,
    abreast,
    bare,
    between,
    boxed,
    dense,
    half_of,
    headed,
    padded,
    ruled,
    shares,
    under,
    upright,
)
from app.documents.typesetting.stationery import Field, Stationery, firm_sheets, inner, print_sheets
from app.documents.workshop.hole_map import HoleMap, Sign
from rules.answer import State
from rules.making import Fixture, Operation, Side, Sort, Target, Zone
from rules.model import Book, Role
from rules.workshop.work import Do, Measured, Place, StageWork, Task, Work

#: Sizes in points; A3 for the wall.
SIZES = {"a4": A4, "a3": A3}

_BIG = style("sheet-feature", 14, 17.5)
_BIG_STRONG = style("sheet-strong", 14, 17.5, fontName=STRONG.fontName)
_SERIAL = style("sheet-serial", 30, 34, fontName=STRONG.fontName)
_VARIANT = style("sheet-variant", 20, 24, fontName=STRONG.fontName)
_STAGE = style("sheet-stage", 18, 22, fontName=STRONG.fontName)
_RED = style("sheet-red", 22, 26, fontName=STRONG.fontName, textColor=STAMP)
_RED_LINE = style("sheet-red-line", 15, 19, fontName=STRONG.fontName, textColor=STAMP)
_WELD = style("sheet-weld", 11, 14)

#: How an option and its choice share their half of the sheet.
_FEATURE = (40, 60)

#: What is the shop's own affair and no feature of the shell.
_NOT_SAID = (Role.DELIVERY,)


@dataclass(frozen=True, slots=True)
class SheetPart:
    """A customer's part: the rule that asks for it and the number on its tag."""

    rule: str
    tag: str


@dataclass(frozen=True, slots=True)
class BuildSheet:
    """`serial` empty while the shell is planned. `revision` of the sheet, `dated` its day; of a planned shell's None.

    `changed`: the options that are otherwise than on the revision before; `why`: where it was drawn up again for
    another reason; both empty on the first.

    `line` and `piece` count from 1. `standing`: option → how its choice stands, for the drawing. `cautions`: ids of the
    book's that hold. `address`: what the code says; empty: no code.
    """

    book: Book
    firm: Firm
    order: str
    line: int
    piece: int
    revision: str
    tool_state: int
    settled: Mapping[str, str]
    work: Work
    printed: date
    serial: str = ""
    dated: date | None = None
    changed: tuple[str, ...] = ()
    why: str = ""
    standing: Mapping[str, State] = field(default_factory=dict)
    parts: tuple[SheetPart, ...] = ()
    cautions: tuple[str, ...] = ()
    address: str = ""
    language: str = "en"
    locale: str = "en_GB"
    size: str = "a4"


def build_sheet_pdf(sheet: BuildSheet, font_folder: Path = fonts.FOLDER) -> bytes:
    """The sheet as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    return _Writer(sheet).pdf()


class _Writer:
    def __init__(self, sheet: BuildSheet) -> None:
        self.sheet, self.work, self.book = sheet, sheet.work, sheet.book
        self.voice = Voice(sheet.book, sheet.language, Figures(sheet.locale, ""))
        self.say = self.voice.say
        self.width = inner(SIZES[sheet.size])[0]

    def pdf(self) -> bytes:
        return print_sheets(self._look(), self._story())

    def _look(self) -> Stationery:
        sheet, title = self.sheet, self.say("sheet.document-title", serial=self._name())
        return firm_sheets(
            self.say,
            sheet.locale,
            SIZES[sheet.size],
            sheet.firm.name,
            title,
            Field(self.say("sheet.title"), self._name(), 0.26, strong=True),
            Field(self.say("sheet.revision"), sheet.revision, 0.16, strong=True),
            Field(self.say("sheet.order"), self._place(), 0.3),
            Field(self.say("sheet.printed"), self.voice.figures.short_day(sheet.printed), 0.13),
            Field(self.say("sheet.book"), f"{sheet.book.number} · {sheet.tool_state}", 0.13),
            across="" if sheet.serial else self.say("sheet.across"),
        )

    def _name(self) -> str:
        return self.sheet.serial or self.sheet.order

    def _place(self) -> str:
        return self.say("sheet.place", order=self.sheet.order, line=self.sheet.line, piece=self.sheet.piece)

    def _story(self) -> list[Flowable]:
        front = [self._head(), Spacer(0, 3 * mm), self._not_standard(), Spacer(0, 2 * mm), *self._unsaid(),
                 *self._specification(),
                 *self._parts(), *self._cautions(), *self._drawing()]  # fmt: skip
        stages = [part for place, stage in enumerate(self.work.stages, 1) for part in self._stage(place, stage)]
        return [*front, PageBreak(), *stages, *self._map()]

    def _head(self) -> Flowable:
        sheet = self.sheet
        code = [Code(sheet.address, 30 * mm)] if sheet.address else []
        beside = code[0].whole if code else 0.1
        serial = sheet.serial or self.say("sheet.no-serial")
        stands = self._dated(sheet.dated) if sheet.dated else self.say("sheet.planned")
        said = [
            text(f"{sheet.firm.name} · {self.say('sheet.title')}", STRONG),
            text(f"{self.say('sheet.serial')}: {serial}", _SERIAL if sheet.serial else _VARIANT),
            text(self.voice.told(sheet.settled), _VARIANT),
            text(f"{self._place()} · {self.say('sheet.revision')} {sheet.revision}", _BIG_STRONG),
            text(stands, _BIG),
            *([text(self.say("sheet.check"), CELL)] if code else []),
        ]
        return ruled(
            [[tuple(said), tuple(code) or Spacer(0, 0)]], [self.width - beside, beside], *bare(), under(0, HEAVY)
        )

    def _dated(self, dated: date) -> str:
        """On what day, and because of what: who fetches a new sheet has to see what is new on it."""
        day = self.voice.figures.day(dated)
        if self.sheet.changed:
            changed = ", ".join(map(self.voice.option, self.sheet.changed))
            return self.say("sheet.changed", day=day, changed=changed)
        return (
            self.say("sheet.again", day=day, why=self.sheet.why)
            if self.sheet.why
            else self.say("sheet.released", day=day)
        )

    def _not_standard(self) -> Flowable:
        """Red, and besides in a heavy double frame with its own words: it must be seen in black and white, too."""
        if not self.work.departures:
            shell = self.voice.told(self.sheet.settled, (Role.SERIES, Role.BODY, Role.MARKET))
            return ruled([[text(self.say("sheet.standard", shell=shell), _BIG)]], [self.width], boxed())
        rows: list[list[Cell]] = [[text(f"▲ {self.say('sheet.not-standard')} ▲", _RED), ""]]
        for one in self.work.departures:
            chosen = self.say("sheet.departs", option=self.voice.option(one.option),
                              choice=self.voice.choice(one.option, one.choice))  # fmt: skip
            usual = self.say("sheet.usual", usual=self.voice.choice(one.option, one.usual))
            rows.append([text(chosen, _RED_LINE), text(usual, _BIG)])
        table = ruled(rows, shares(self.width - 2.8 * mm, 60, 40), ("BOX", (0, 0), (-1, -1), 2.4, STAMP),
                      ("SPAN", (0, 0), (-1, 0)))  # fmt: skip
        return ruled([[table]], [self.width], ("BOX", (0, 0), (-1, -1), 1.2, STAMP), *padded(1.4 * mm))

    def _unsaid(self) -> Iterator[Flowable]:
        """A book of before shops had it says nothing of the work: that is told, lest nothing seem to be needed."""
        if not self.book.making.operations:
            said = text(self.say("sheet.no-work", number=self.book.number), _RED_LINE)
            yield ruled([[said]], [self.width], ("BOX", (0, 0), (-1, -1), 2.4, STAMP))

    def _specification(self) -> Iterator[Flowable]:
        yield opening(self.say("sheet.specification"))
        silent = {self.book.roles.get(role) for role in _NOT_SAID}
        told = [option for option in self.book.options if option.id not in silent]
        rows = [self._feature(option.id) for option in told]
        yield abreast(rows, self.width, _FEATURE, boxed(), between(), upright(), *dense())

    def _feature(self, option: str) -> list[Cell]:
        differs = any(one.option == option for one in self.work.departures)
        choice = self.voice.choice(option, self.sheet.settled[option])
        name, chosen = (width - CELL_SIDES for width in shares(half_of(self.width), *_FEATURE))
        said = f"▲ {choice}" if differs else choice
        return [whole_words(self.voice.option(option), CELL, name), whole_words(said, _BIG_STRONG, chosen)]

    def _parts(self) -> Iterator[Flowable]:
        rows = [self._part(part) for part in self.sheet.parts]
        head = opening(self.say("sheet.parts"))
        if not rows:
            yield KeepTogether([head, text(self.say("sheet.no-parts"), _BIG)])
        else:
            yield KeepTogether([head, ruled(rows, shares(self.width, 6, 44, 26, 24), boxed(), between())])

    def _part(self, part: SheetPart) -> list[Cell]:
        said = self.say("sheet.part", rule=part.rule, part=part_title(self.voice, part.rule))
        before = self.say("sheet.part-before", stage=self.voice.stage(self.book.rule(part.rule).needed_before or ""))
        return [
            TickBox(5 * mm),
            text(said, _BIG_STRONG),
            text(self.say("sheet.part-tag", tag=part.tag)),
            text(before, _BIG),
        ]

    def _cautions(self) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [
            [text("!", _BIG_STRONG), text(self.voice.caution(one), _WELD)] for one in self.sheet.cautions
        ]
        if rows:
            table = ruled(rows, [9 * mm, self.width - 9 * mm], boxed(HEAVY), between())
            yield KeepTogether([opening(self.say("sheet.cautions")), table])

    def _drawing(self) -> Iterator[Flowable]:
        standing = Standing(self.sheet.settled, self.sheet.standing)
        stacked = self.sheet.size == "a4"
        arrangement = Arrangement.STACKED if stacked else Arrangement.ABREAST
        drawing = shell_drawing(self.book, standing, self.sheet.language, arrangement)
        if drawing is not None:
            drawn = DrawnShell(drawing, 150 * mm if stacked else self.width)
            yield KeepTogether([opening(self.say("sheet.drawing")), drawn])

    def _stage(self, place: int, stage: StageWork) -> Iterator[Flowable]:
        name = self.say("sheet.operations", place=place, stage=self.voice.stage(stage.stage))
        yield CondPageBreak(70 * mm)
        yield Spacer(0, 3 * mm)
        yield ruled([[text(name, _STAGE)]], [self.width], under(0, HEAVY))
        yield from self._masks(stage.masks)
        yield from self._tasks(stage)
        yield from self._places_here(stage.places)
        yield from self._datums(stage)
        yield from self._gaps(stage.gaps)

    def _tasks(self, stage: StageWork) -> Iterator[Flowable]:
        rows = [self._task(task) for task in stage.tasks]
        held = [at for at, task in enumerate(stage.tasks) if task.operation.sort is Sort.HOLD]
        frames: list[Command] = [("BOX", (0, at), (-1, at), 2, STRONG.textColor) for at in held]
        if rows:
            yield ruled(rows, shares(self.width, 6, 66, 28), boxed(), between(), upright(), *frames)

    def _task(self, task: Task) -> list[Cell]:
        operation = task.operation
        said: list[Flowable] = [text(self.voice.words(operation.text), _BIG_STRONG if self._holds(operation) else _BIG)]
        if self._holds(operation):
            said.insert(0, text(self.say("sheet.hold"), STRONG))
        if operation.process is not None:
            said.append(text(self._process(operation.process), _WELD))
        said += [text(self._zone(zone), _WELD) for zone in task.zones]
        signed = [text(self.say("sheet.by"), SMALL), Spacer(0, 9 * mm)]
        signed += [text(f"{self.say('sheet.zone-by')}: ____________", SMALL) for _ in task.zones]
        return [TickBox(6 * mm), tuple(said), tuple(signed)]

    @staticmethod
    def _holds(operation: Operation) -> bool:
        return operation.sort is Sort.HOLD

    def _process(self, number: str) -> str:
        name = next(self.voice.words(one.label) for one in self.book.making.processes if one.id == number)
        return f"ISO 4063-{number} {name}"

    def _zone(self, zone: Zone) -> str:
        sheets = " / ".join(map(self._length, zone.sheets))
        return "• " + self.say("sheet.zone", zone=self.voice.words(zone.label), welds=zone.welds, sheets=sheets)

    def _length(self, length: Decimal) -> str:
        return self.voice.figures.measure(length)

    def _masks(self, masks: tuple[Operation, ...]) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [[TickBox(6 * mm), text(self.voice.words(mask.text), _BIG_STRONG)] for mask in masks]
        if rows:
            table = ruled(rows, [11 * mm, self.width - 11 * mm], boxed(HEAVY), between())
            yield KeepTogether([opening(self.say("sheet.mask")), table])

    def _places_here(self, places: tuple[Place, ...]) -> Iterator[Flowable]:
        said = (f"{one.letter}\N{NO-BREAK SPACE}{self._do(one)}" for one in sorted(places, key=_by_letter))
        if places:
            yield KeepTogether([opening(self.say("sheet.places")), text(" · ".join(said), _BIG)])

    def _do(self, place: Place) -> str:
        fitted = place.do is Do.DRILL and place.hole.fixture is Fixture.BRACKET
        return self.say("sheet.fit" if fitted else f"sheet.{place.do.value}")

    def _datums(self, stage: StageWork) -> Iterator[Flowable]:
        rows: list[list[Cell]] = [
            [text(self.voice.words(one.label), _BIG), text(self.say(f"sheet.{one.reach.value}")),
             text(self._aim(one.target), _BIG_STRONG), ""]
            for one in stage.datums
        ]  # fmt: skip
        if rows:
            heads: list[list[Cell]] = [
                ["", "", text(self.say("sheet.should-be"), SMALL), text(self.say("sheet.measured"), SMALL)]
            ]
            yield CondPageBreak(45 * mm)
            yield opening(self.say("sheet.datums"))
            yield self._lined([*heads, *rows], 48, 14, 20, 18)

    def _aim(self, target: Target) -> str:
        return self.say(
            "sheet.tolerance", nominal=self._length(target.nominal), tolerance=self._length(target.tolerance)
        )

    def _gaps(self, gaps: tuple[Measured, ...]) -> Iterator[Flowable]:
        if gaps:
            yield opening(self.say("sheet.gaps"))
        for measured in gaps:
            label = text(self.voice.words(measured.gap.label), _BIG_STRONG)
            air = Spacer(0, 2.5 * mm)
            yield KeepTogether([label, *self._targets(measured), self._points(measured), air])

    def _targets(self, measured: Measured) -> Iterator[Flowable]:
        gap = measured.gap
        aims = {"metal": self._aim(gap.metal), "painted": self._aim(gap.painted), "flush": self._aim(gap.flush)}
        yield text(self.say("sheet.gap-targets", **aims), _BIG)
        limits = [self.say(f"sheet.{key}", limit=self._length(limit))
                  for key, limit in (("taper", gap.taper), ("facing", gap.across)) if limit is not None]  # fmt: skip
        if gap.customers in {part.rule for part in self.sheet.parts}:
            limits.append(self.say("sheet.customers", part=part_name(self.voice, gap.customers or "")))
        if limits:
            yield text(" ".join(limits), _WELD)

    def _points(self, measured: Measured) -> Flowable:
        heads: list[Cell] = [text(self.say(f"sheet.{key}"), SMALL) for key in ("point", "metal", "painted", "flush")]
        rows: list[list[Cell]] = [[text(self.voice.words(one.label), _BIG), "", "", ""] for one in measured.points]
        return self._lined([heads, *rows], 46, 18, 18, 18)

    def _lined(self, rows: list[list[Cell]], *parts: float) -> Flowable:
        """A table to be written in with a pen, its head repeated where it breaks."""
        return ruled(rows, shares(self.width, *parts), boxed(), between(), upright(), *headed(), heads=1)

    def _map(self) -> Iterator[Flowable]:
        places = self.work.places
        if not places:
            return
        steering = self.book.roles.get(Role.STEERING, "")
        hand = self.voice.choice(steering, self.sheet.settled[steering]) if steering else ""
        yield CondPageBreak(170 * mm)
        yield ruled([[text(self.say("sheet.map"), _STAGE)]], [self.width], under(0, HEAVY))
        yield text(self.say("sheet.map-as", steering=hand), _WELD)
        yield HoleMap(self.book, self.sheet.settled, places, self.width)
        heads: list[Cell] = ["", text(self.say("sheet.letter"), SMALL), "", text(self.say("sheet.what"), SMALL), "",
                             text(self.say("sheet.where"), SMALL)]  # fmt: skip
        rows = [heads, *map(self._place_row, places)]
        yield self._lined(rows, 6, 7, 24, 39, 9, 21)

    def _place_row(self, place: Place) -> list[Cell]:
        size = self.say("sheet.across-mm", size=self._length(place.hole.size)) if place.hole.size else ""
        side = Side.MIDDLE if place.y == 0 else Side.RIGHT if place.y > 0 else Side.LEFT
        beside = self.say(f"sheet.{side.value}", y=abs(place.y))
        sign = [Sign(place.do), text(self._do(place), _BIG_STRONG)]
        done = ruled([sign], [6.5 * mm, self.width * 0.21 - 6.5 * mm], *bare())
        label = text(self.voice.words(place.hole.label), _BIG)
        return [TickBox(5.5 * mm), text(place.letter, _BIG_STRONG), done, label,
                text(size, _WELD), text(f"{place.x} · {beside}", _WELD)]  # fmt: skip


def _by_letter(place: Place) -> tuple[int, str]:
    return len(place.letter), place.letter
