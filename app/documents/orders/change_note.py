"""The change note as a PDF: what changes on one shell, what it costs, which day it moves, and room to sign.

It lays out what it is handed and decides nothing. While the manager's word is waited for it is marked as a draft.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.quotation.close import cautions_of, to_sign
from app.documents.saying.voice import voice_of
from app.documents.shared.letterhead import Standing, letterhead, look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CAPTION_RIGHT, CELL, RIGHT, SMALL, STRONG, THIN, caption, heading, text
from app.documents.typesetting.marks import Stamp
from app.documents.typesetting.ruled import Cell, between, dense, headed, ruled, shares, under
from app.documents.typesetting.stationery import Field, Stationery, inner_width, print_sheets
from app.domain.orders.change_note import Content, Difference, Range
from app.domain.quotations.quotation import DeliveryPlace


@dataclass(frozen=True, slots=True)
class Word:
    """Who said it on which day, and why."""

    by: str
    day: date
    why: str = ""


@dataclass(frozen=True, slots=True)
class ChangeNotePaper:
    """`quotation`: what was ordered, for head and customer; `shell` counts from 1 of `of`; `serial` empty: planned.

    `stage`: id of the stage that the shell had come into, or "". `cautions`: ids of the book's that hold of the changed
    shell on this paper. `approved`: what the manager had said when it was drawn.
    """

    quotation: QuotationPaper
    number: str
    order: str
    shell: int
    of: int
    serial: str
    stage: str
    content: Content
    cautions: tuple[str, ...] = ()
    approved: Word | None = None


def change_note_pdf(paper: ChangeNotePaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """As PDF bytes, the same for the same input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    return _Writer(paper).pdf()


class _Writer:
    def __init__(self, paper: ChangeNotePaper) -> None:
        self.paper, self.content, self.quotation = paper, paper.content, paper.quotation
        self.voice = voice_of(paper.quotation)
        self.say, self.figures = self.voice.say, self.voice.figures
        self.width = inner_width(paper.quotation.sheet)

    def pdf(self) -> bytes:
        return print_sheets(self._look(), self._story())

    def _look(self) -> Stationery:
        paper, say = self.paper, self.say
        return look_of(
            self.quotation,
            self.voice,
            say("note.document-title", number=paper.number),
            Field(say("block.from"), self.quotation.firm.name, 0.2),
            Field(say("block.paper"), say("note.title"), 0.17, strong=True),
            Field(say("note.number"), paper.number, 0.19, strong=True),
            Field(say("note.order"), paper.order, 0.18),
            Field(say("block.dated"), self.figures.short_day(self.content.dated), 0.14),
        )

    def _story(self) -> list[Flowable]:
        return [
            *letterhead(self.quotation, f"{self.say('note.title')} {self.paper.number}", self._standing(), self.voice,
                        self.width, self._stamp()),
            Spacer(0, 2 * mm),
            *self._changes(),
            *self._money(),
            *self._dates(),
            *self._gained(),
            *cautions_of(self._cautions(), self.paper.cautions, self.voice, self.width),
            KeepTogether(self._signature()),
        ]  # fmt: skip

    def _stamp(self) -> Stamp:
        sure = self.quotation.issued
        head = self.say("head.issued" if sure else "head.draft")
        return Stamp(head, self.figures.short_day(self.content.dated), sure)

    def _standing(self) -> Standing:
        paper, day = self.paper, self.figures.day(self.content.dated)
        which = self.say("note.of", order=paper.order, shell=paper.shell, of=paper.of)
        serial = self.say("note.serial", serial=paper.serial) if paper.serial else self.say("note.no-serial")
        stage = self.say("note.stage", stage=self.voice.stage(paper.stage)) if paper.stage else self.say("note.planned")
        return [
            (f"{which}, {serial}", STRONG),
            (stage, CELL),
            (self.say("note.drawn", day=day, author=self.content.author), CELL),
            (self.say("note.wish", why=self.content.why), CELL),
        ]

    def _changes(self) -> list[Flowable]:
        keys = ("what", "until-now", "from-now", "taken")
        rows: list[list[Cell]] = [[caption(self.say(f"note.{key}")) for key in keys]]
        for one in self.content.changes:
            before, after = (self.voice.choice(one.option, choice) for choice in (one.before, one.after))
            rows.append(self._row(self.voice.option(one.option), before, after, one.taken.value))
        place = self.content.place
        if place is not None:
            named = (self._place(place.before), self._place(place.after))
            rows.append(self._row(self.say("note.place"), *named, place.taken.value))
        return [heading(self.say("note.changes")), self._table(rows, 44, 41, 41, 50)]

    def _table(self, rows: list[list[Cell]], *parts: float) -> Flowable:
        return ruled(rows, shares(self.width, *parts), *headed(), *dense(), between(1), under(-1, THIN), heads=1)

    def _row(self, what: str, before: str, after: str, taken: str) -> list[Cell]:
        return [text(what, CELL), text(before, CELL), text(after, STRONG), text(self.say(f"note.taken-{taken}"), CELL)]

    def _place(self, place: DeliveryPlace) -> str:
        country = self.figures.country(place.country) if place.country else ""
        return ", ".join(part for part in (place.region, country, place.term) if part) or self.say("note.no-place")

    def _money(self) -> list[Flowable]:
        """Line by line before tax, then what it comes to under each tax case in question."""
        amounts = [caption(self.say(f"note.{key}"), CAPTION_RIGHT) for key in ("before", "after", "more")]
        rows: list[list[Cell]] = [[caption(self.say("note.line")), *amounts]]
        for one in self.content.prices:
            more = (one.after or 0) - (one.before or 0)
            rows.append([text(self.voice.line(one.line), CELL), *map(self._sum, (one.before, one.after, more))])
        if self.content.charge:
            rows.append([text(self.say("note.charge"), CELL), "", "", self._sum(self.content.charge)])
        sums = [line for one in self.content.differences for line in self._come_to(one)]
        shown = [self._table(rows, 82, 31, 31, 32)] if len(rows) > 1 else [text(self.say("note.no-price"), CELL)]
        return [CondPageBreak(35 * mm), heading(self.say("note.money")), *shown, Spacer(0, 1 * mm), *sums]

    def _sum(self, amount: int | None) -> Cell:
        return text("–" if amount is None else self.figures.money(amount), RIGHT)

    def _come_to(self, one: Difference) -> Iterator[Flowable]:
        money = self.figures.money
        head = self.say(f"note.case-{one.kind}") if len(self.content.differences) > 1 else ""
        told = self.say("note.sum", net=money(one.net), tax=money(one.tax), gross=money(one.gross))
        yield text(f"{head} {told}".strip(), STRONG)
        yield text(self.say("note.whole", order=self.paper.order, whole=money(one.whole)), CELL)

    def _dates(self) -> list[Flowable]:
        was, now = self.content.before, self.content.after
        said = [self.say("note.no-slot")] if was is None or now is None else self._ready(was, now)
        return [KeepTogether([heading(self.say("note.dates")), *(text(line, CELL) for line in said)])]

    def _ready(self, was: Range, now: Range) -> list[str]:
        if was == now:
            return [self.say("note.no-day", **self._days(was))]
        days = self.content.days
        later = [self.say("note.later-one" if days == 1 else "note.later", days=days)] if days else []
        return [self.say("note.was", **self._days(was)), self.say("note.now", **self._days(now)), *later]

    def _days(self, one: Range) -> dict[str, str]:
        return {"ready": self.figures.day(one.ready), "ready_by": self.figures.day(one.ready_by)}

    def _cautions(self) -> list[str]:
        """A rule that asks for an approval, too, has said why above."""
        gained = self.content.gained
        return [rule for rule in gained.cautions if rule not in gained.approvals]

    def _gained(self) -> list[Flowable]:
        """What the shell depends on newly; the cautions among it stand in their own box."""
        gained = self.content.gained
        said = [f"{rule} {self.voice.reason(rule)}" for rule in (*gained.parts, *gained.approvals)]
        approved = self.paper.approved
        if approved is not None:
            day = self.figures.day(approved.day)
            said.append(self.say("note.approved", by=approved.by, day=day, why=approved.why))
        elif self.content.needs_approval:
            said.append(self.say("note.waits"))
        if not said:
            return []
        return [KeepTogether([heading(self.say("note.needs")), *(text(line, CELL) for line in said)])]

    def _signature(self) -> list[Flowable]:
        paper, firm = self.paper, self.quotation.firm
        terms = self.voice.words(firm.changes) if firm.changes else self.say("close.changes-default")
        said = self.say("note.sign", number=paper.number, order=paper.order)
        block = [heading(self.say("note.signature")), to_sign(said, self.voice, self.width), Spacer(0, 1 * mm)]
        return [*block, text(self.say("note.before-a-hand"), SMALL), text(terms, SMALL)]
