"""The sheet "Where to cut": for each customer's part how it comes out of the donor car, sent before anybody cuts.

It lays out what `WhereToCut` carries. It names no price and decides nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper, Units
from app.documents.drawings.flowable import DrawnShell
from app.documents.drawings.sketch import margins_of, sketch_of
from app.documents.quotation.close import caution_box
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.answers import part_name, part_title
from app.documents.shared.letterhead import Standing, letterhead, look_beside
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, FINE, HEAVY, STRONG, opening, text
from app.documents.typesetting.ruled import Cell, between, boxed, dense, ruled, shares, upright
from app.documents.typesetting.stationery import Stationery, inner_width, print_sheets
from rules.donor.keep import Sent
from rules.model import Cut, Remark


@dataclass(frozen=True, slots=True)
class WhereToCut:
    """`sent`: the customer's parts of all the lines, each once; `cautions`: ids of the book's that hold."""

    quotation: QuotationPaper
    sent: tuple[Sent, ...]
    cautions: tuple[str, ...]


def where_to_cut_pdf(sheet: WhereToCut, font_folder: Path = fonts.FOLDER) -> bytes:
    """The sheet as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(sheet.quotation)
    return print_sheets(_look(sheet.quotation, voice), _story(sheet, voice))


def _look(paper: QuotationPaper, voice: Voice) -> Stationery:
    title = voice.say("cut.document-title", number=paper.number, revision=paper.revision)
    return look_beside(paper, voice, title, voice.say("cut.title"), voice.say("cut.of"))


def _story(sheet: WhereToCut, voice: Voice) -> list[Flowable]:
    paper, width = sheet.quotation, inner_width(sheet.quotation.sheet)
    head = letterhead(paper, voice.say("cut.title"), _standing(sheet, voice), voice, width)
    story = [*head, Spacer(0, 2 * mm)]
    if not sheet.sent:
        return [*story, text(voice.say("cut.none"), STRONG)]
    story.append(_before(sheet, voice, width))
    for place, sent in enumerate(sheet.sent):
        story += _part(sheet, sent, voice, width, first=place == 0)
    return [*story, KeepTogether(_cautions(sheet, voice, width))]


def _standing(sheet: WhereToCut, voice: Voice) -> Standing:
    paper = sheet.quotation
    return [
        (voice.say("cut.belongs", number=paper.number, revision=paper.revision), STRONG),
        (voice.say("head.dated", day=voice.figures.day(paper.dated), author=paper.author), CELL),
        (voice.say("cut.lead"), CELL),
    ]


def _before(sheet: WhereToCut, voice: Voice, width: float) -> Flowable:
    """In a heavy box, before anything else: what is cut can't be put back."""
    keys = ("cut.before",) if sheet.quotation.issued else ("cut.draft", "cut.before")
    return ruled([[text(voice.say(key), STRONG)] for key in keys], [width], boxed(HEAVY), between())


def _part(sheet: WhereToCut, sent: Sent, voice: Voice, width: float, *, first: bool) -> list[Flowable]:
    """A part to a sheet where it has a sketch: its page can go to whoever cuts."""
    paper, cut = sheet.quotation, sheet.quotation.book.cut(sent.rule)
    name = part_name(voice, sent.rule)
    title = voice.say("cut.part", rule=sent.rule, part=part_title(voice, sent.rule))
    needed = voice.say("cut.needed", stage=voice.stage(paper.book.rule(sent.rule).needed_before or ""))
    facts = [text(needed, STRONG), *_company(sheet, sent, voice)]
    drawn = [] if cut is None else _drawn(cut, name, sheet, voice, width)
    said = [text(voice.reason(sent.rule), CELL)] if cut is None else [_said(cut, sheet, voice, width)]
    return [
        CondPageBreak((60 if first else 120) * mm),
        KeepTogether([opening(title), *facts, *drawn]),
        Spacer(0, 1.5 * mm),
        *said,
    ]


def _company(sheet: WhereToCut, sent: Sent, voice: Voice) -> list[Flowable]:
    labels = [voice.words(keep.label) for keep in sheet.quotation.book.keeps if keep.id in sent.company]
    return [text(voice.say("cut.with", parts="; ".join(labels)))] if labels else []


def _drawn(cut: Cut, name: str, sheet: WhereToCut, voice: Voice, width: float) -> list[Flowable]:
    drawing = sketch_of(cut, name, voice.language, lambda mm_: voice.length(mm_, sheet.quotation.units))
    if drawing is None:
        return []
    wide = min(width * 0.86, (100 if cut.margins else 62) * mm * drawing.width / drawing.height)
    frame = ruled([[DrawnShell(drawing, wide)]], [width], boxed(), ("ALIGN", (0, 0), (-1, -1), "CENTER"))
    key = text(voice.say("cut.key" if cut.margins else "cut.key-whole"), FINE)
    bind = [text(voice.say("cut.bind"), FINE)] if sheet.quotation.units is Units.BOTH else []
    return [Spacer(0, 1 * mm), frame, key, *bind]


def _said(cut: Cut, sheet: WhereToCut, voice: Voice, width: float) -> Flowable:
    """Margins, what must not be cut, limits of condition, steps; each kind a row."""
    units = sheet.quotation.units
    rows: list[list[Cell]] = [[text(voice.say("cut.saw"), STRONG), text(_where(cut, units, voice), STRONG)]]
    for remark in Remark:
        lines = [voice.measured(one.text, units) for one in cut.remarks if one.about is remark]
        if lines:
            rows.append([text(voice.say(f"cut.{remark.value}"), STRONG), tuple(text(line) for line in lines)])
    return ruled(rows, shares(width, 36, 134), boxed(), between(), upright(), *dense())


def _where(cut: Cut, units: Units, voice: Voice) -> str:
    margins = ", ".join(_margins(cut, units, voice))
    return voice.say("cut.margins", margins=margins) if margins else voice.say("cut.whole")


def _margins(cut: Cut, units: Units, voice: Voice) -> Iterator[str]:
    for side, margin in margins_of(cut).items():
        slots = {"side": voice.say(f"cut.side-{side}"), "margin": voice.length(Decimal(margin), units)}
        yield voice.say("cut.margin", **slots)


def _cautions(sheet: WhereToCut, voice: Voice, width: float) -> list[Flowable]:
    sentences = (*map(voice.caution, sheet.cautions), voice.say("cut.ask"))
    return caution_box((("!", sentence) for sentence in sentences), voice, width)
