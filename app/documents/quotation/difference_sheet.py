"""The difference sheet, to be signed: the donor car as built, as it stands and as ordered, in the rows that differ.

It lays out what `DifferenceSheet` carries and compares nothing itself. It names no price.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import Evidence, QuotationPaper
from app.documents.quotation.close import cautions_of, to_sign
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.alike import Places, alike, shells_name
from app.documents.shared.letterhead import Standing, letterhead, look_beside
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, FINE, SMALL, STRONG, THIN, caption, heading, opening, text
from app.documents.typesetting.ruled import Cell, between, boxed, dense, headed, ruled, shares, under, upright
from app.documents.typesetting.stationery import Stationery, inner_width, print_sheets
from app.domain.quotations.pictures import Row
from rules.model import Series


@dataclass(frozen=True, slots=True)
class Said:
    """Who says so of one picture of the car, and in what words; NOBODY: nobody yet. `photograph`: what he points to."""

    evidence: Evidence = Evidence.NOBODY
    note: str = ""
    photograph: int | None = None


@dataclass(frozen=True, slots=True)
class DifferenceSheet:
    """`rows`, `rules`: for each line of the quotation, the rows that differ and the ids of rules that speak of them.

    `cautions`: ids of the book's standing cautions that hold. `stands_said`: whether anybody has said how it stands.
    `claimed`: the series that the car is said to be of now, where its number says another.
    """

    quotation: QuotationPaper
    rows: tuple[tuple[Row, ...], ...]
    rules: tuple[tuple[str, ...], ...]
    cautions: tuple[str, ...]
    built: Said = Said()
    stands: Said = Said()
    stands_said: bool = False
    claimed: str | None = None


def difference_sheet_pdf(sheet: DifferenceSheet, font_folder: Path = fonts.FOLDER) -> bytes:
    """The sheet as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(sheet.quotation)
    return print_sheets(_look(sheet.quotation, voice), _story(sheet, voice))


def _look(paper: QuotationPaper, voice: Voice) -> Stationery:
    title = voice.say("difference.document-title", number=paper.number, revision=paper.revision)
    return look_beside(paper, voice, title, voice.say("difference.title"), voice.say("difference.of"))


def _story(sheet: DifferenceSheet, voice: Voice) -> list[Flowable]:
    paper, width = sheet.quotation, inner_width(sheet.quotation.sheet)
    return [
        *letterhead(paper, voice.say("difference.title"), _standing(paper, voice), voice, width),
        *_two_facts(sheet, voice, width),
        *_who_says(sheet, voice, width),
        *differing(sheet, voice, width),
        KeepTogether([*_cautions(sheet, voice, width), *_signed(paper, voice, width)]),
    ]


def _standing(paper: QuotationPaper, voice: Voice) -> Standing:
    dated = voice.say("head.dated", day=voice.figures.day(paper.dated), author=paper.author)
    slots = {"number": paper.number, "revision": paper.revision}
    return [
        (voice.say("difference.belongs", **slots), STRONG),
        (dated, CELL),
        (voice.say("difference.lead"), CELL),
    ]


def _two_facts(sheet: DifferenceSheet, voice: Voice, width: float) -> list[Flowable]:
    """Both facts side by side where the car is said to be of another series than its number makes it."""
    paper, claimed = sheet.quotation, sheet.claimed
    if claimed is None or paper.donor.series is None:
        return []
    known = {series.choice: series for series in paper.book.series}
    said = (("difference.by-number", paper.donor.series), ("difference.by-word", claimed))
    rows = [_fact(voice.say(key), known[choice], voice) for key, choice in said if choice in known]
    table = ruled(rows, shares(width, 50, 12, 24, 84), boxed(), between(), *dense())
    decides = voice.say("difference.decides", series=voice.series(paper.donor.series))
    return [KeepTogether([heading(voice.say("difference.two")), table, Spacer(0, 1 * mm), text(decides, STRONG)])]


def _fact(label: str, series: Series, voice: Voice) -> list[Cell]:
    changes = text(voice.words(series.changes), SMALL)
    return [text(label, STRONG), text(voice.series(series.choice), STRONG), text(series.years), changes]


def _who_says(sheet: DifferenceSheet, voice: Voice, width: float) -> list[Flowable]:
    pictures = (("difference.built", sheet.built), ("difference.stands", sheet.stands))
    rows: list[list[Cell]] = [
        [text(voice.say(key), STRONG), (text(_evidence(said, key, sheet, voice)), *_note(said.note, voice))]
        for key, said in pictures
    ]
    rows.append([text(voice.say("difference.ordered"), STRONG), text(_wanted(sheet.quotation, voice))])
    table = ruled(rows, shares(width, 34, 136), boxed(), between(), upright(), *dense())
    return [KeepTogether([heading(voice.say("difference.who")), table])]


def _evidence(said: Said, key: str, sheet: DifferenceSheet, voice: Voice) -> str:
    if key == "difference.stands" and not sheet.stands_said:
        return voice.say("difference.unsaid")
    by_number = sheet.quotation.donor.established and key == "difference.built"
    says = voice.say(f"donor.{said.evidence.value}")
    if said.photograph is not None:
        says = voice.say("difference.pointed", says=says.rstrip("."), photograph=said.photograph)
    return f"{voice.say('difference.usual-by-number')} {says}" if by_number else says


def _note(note: str, voice: Voice) -> list[Flowable]:
    return [text(voice.say("difference.note", note=note.strip()), SMALL)] if note.strip() else []


def _wanted(paper: QuotationPaper, voice: Voice) -> str:
    slots = {"number": paper.number, "revision": paper.revision}
    wanted = [voice.say(f"intent.{paper.intent.value}")] if paper.intent else []
    return " ".join([voice.say("difference.as-quoted", **slots), *wanted])


def differing(sheet: DifferenceSheet, voice: Voice, width: float, head: str = "difference.heading") -> list[Flowable]:
    """A table for each specification that differs in its own way."""
    paper, story = sheet.quotation, list[Flowable]()
    rows = {id(shell): (found, voice.shell(shell)) for shell, found in zip(paper.shells, sheet.rows, strict=True)}
    for places in alike(paper.shells, lambda shell: rows[id(shell)]):
        story += _shell(sheet, places, voice, width, head)
    return story


def _shell(sheet: DifferenceSheet, places: Places, voice: Voice, width: float, head_key: str) -> list[Flowable]:
    rows, paper = sheet.rows[places[0]], sheet.quotation
    head = opening(f"{voice.say(head_key)}: {shells_name(paper, places, voice)}")
    if not rows:
        return [head, text(voice.say("difference.none"), STRONG)]
    keys = ("specification.option", "difference.built", "difference.stands", "difference.ordered")
    cells: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    cells += [_row(row, sheet.stands_said, voice) for row in rows]
    table = ruled(cells, shares(width, 50, 40, 40, 40), *headed(), *dense(), between(1), under(-1, THIN), heads=1)
    return [CondPageBreak(30 * mm), head, table, Spacer(0, 0.6 * mm), text(voice.say("difference.key"), FINE)]


def _row(row: Row, stands_said: bool, voice: Voice) -> list[Cell]:
    """A side in bold where it is another than the one before it."""
    stands = row.stands if stands_said else None
    before = row.built if stands is None else stands
    return [
        text(voice.option(row.option)),
        _side(row.option, row.built, False, voice),
        _side(row.option, stands, row.built not in (None, stands), voice),
        _side(row.option, row.ordered, before not in (None, row.ordered), voice),
    ]


def _side(option: str, choice: str | None, other: bool, voice: Voice) -> Flowable:
    if choice is None:
        return text("–")
    return text(f"≠\u00a0 {voice.choice(option, choice)}", STRONG) if other else text(voice.choice(option, choice))


def _cautions(sheet: DifferenceSheet, voice: Voice, width: float) -> list[Flowable]:
    rules = dict.fromkeys(rule for found in sheet.rules for rule in found)
    return cautions_of(rules, sheet.cautions, voice, width)


def _signed(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    head = heading(voice.say("difference.signature"))
    if not paper.issued:
        return [head, text(voice.say("difference.draft"), STRONG)]
    slots = {"number": paper.number, "revision": paper.revision}
    block = to_sign(voice.say("difference.text", **slots), voice, width)
    return [head, block, Spacer(0, 1 * mm), text(voice.say("difference.return", firm=paper.firm.name), SMALL)]
