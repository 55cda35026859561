"""The order-acceptance form: what the customer signs to order by a quotation, its differences and cautions before him.

It lays out what `DifferenceSheet` carries, the quotation within it, and decides nothing. The quotation's own block may
be signed instead; this sheet is for whoever sends the one and keeps the other.
"""

from __future__ import annotations

from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.quotation.close import case_to_tick, cautions, returned, terms
from app.documents.quotation.difference_sheet import DifferenceSheet, differing
from app.documents.quotation.ready import dates
from app.documents.quotation.total import total
from app.documents.saying.voice import Voice, voice_of
from app.documents.shared.alike import alike, shells_name
from app.documents.shared.letterhead import Standing, letterhead, look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, HEAVY, SMALL, STRONG, caption, heading, text
from app.documents.typesetting.marks import TickBox
from app.documents.typesetting.ruled import Cell, between, boxed, dense, ruled, shares, upright
from app.documents.typesetting.stationery import Field, Stationery, inner_width, print_sheets

#: Of the quotation's terms, those that the signature is for.
_TERMS = ("delivery", "measures", "payment", "changes")

#: What is ticked before it is signed.
_READ = ("specification", "differences", "cautions")


def acceptance_form_pdf(sheet: DifferenceSheet, font_folder: Path = fonts.FOLDER) -> bytes:
    """The form as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    voice = voice_of(sheet.quotation)
    return print_sheets(_look(sheet.quotation, voice), _story(sheet, voice))


def _look(paper: QuotationPaper, voice: Voice) -> Stationery:
    title = voice.say("form.document-title", number=paper.number, revision=paper.revision)
    until = voice.figures.short_day(paper.valid_until) if paper.valid_until else voice.say("block.draft")
    return look_of(
        paper,
        voice,
        title,
        Field(voice.say("block.from"), paper.firm.name, 0.21),
        Field(voice.say("block.paper"), voice.say("form.title"), 0.2, strong=True),
        Field(voice.say("difference.of"), f"{paper.number} · {paper.revision}", 0.21, strong=True),
        Field(voice.say("block.valid"), until, 0.14),
        Field(voice.say("block.book"), f"{paper.book.number} · {paper.tool_state}", 0.13),
    )


def _story(sheet: DifferenceSheet, voice: Voice) -> list[Flowable]:
    paper, width = sheet.quotation, inner_width(sheet.quotation.sheet)
    return [
        *letterhead(paper, voice.say("form.title"), _standing(paper, voice), voice, width),
        *_ordered(paper, voice),
        *total(paper, voice, width),
        *dates(paper, voice, width),
        *(differing(sheet, voice, width, "form.differs") if _compared(sheet) else ()),
        *_frozen(paper, voice, width),
        *terms(paper, voice, _TERMS),
        *cautions(paper, voice),
        KeepTogether(_signed(sheet, voice, width)),
    ]


def _compared(sheet: DifferenceSheet) -> bool:
    """Whether there is a car that the shell could differ from."""
    donor = sheet.quotation.donor
    return bool(donor.text or donor.canonical or donor.series or any(sheet.rows))


def _standing(paper: QuotationPaper, voice: Voice) -> Standing:
    slots = {"number": paper.number, "revision": paper.revision}
    return [
        (voice.say("form.accepts", **slots), STRONG),
        (voice.say("head.dated", day=voice.figures.day(paper.dated), author=paper.author), CELL),
        (voice.say("form.lead"), CELL),
    ]


def _ordered(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The shells in a few words each: what they are in full the quotation says."""
    lines = alike(paper.shells, lambda shell: (voice.shell(shell), shell.quantity))
    slots = {"number": paper.number, "revision": paper.revision}
    named = [text(shells_name(paper, places, voice), STRONG) for places in lines]
    return [
        KeepTogether([heading(voice.say("form.ordered")), *named, text(voice.say("form.as-quoted", **slots), CELL)])
    ]


def _frozen(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    slots = {"number": paper.number, "revision": paper.revision, "book": paper.book.number, "firm": paper.firm.name}
    rows: list[list[Cell]] = [
        [text(voice.say(f"form.{key}"), STRONG), text(voice.say(f"form.{key}-text", **slots), SMALL)]
        for key in ("frozen", "after", "confirmed")
    ]
    table = ruled(rows, shares(width, 31, 139), boxed(), between(), upright(), *dense())
    return [KeepTogether([heading(voice.say("form.holds")), table])]


def _signed(sheet: DifferenceSheet, voice: Voice, width: float) -> list[Flowable]:
    paper, head = sheet.quotation, heading(voice.say("form.signature"))
    back = returned(paper, voice)
    if not back:
        return [head, text(voice.say("accept.draft"), STRONG)]
    slots = {"number": paper.number, "revision": paper.revision}
    asked = [key for key in _READ if key != "differences" or _compared(sheet)]
    read: list[list[Cell]] = [[TickBox(3 * mm), text(voice.say(f"form.read-{key}", **slots))] for key in asked]
    ticks = ruled(read, [6 * mm, width - 12 * mm], ("BOTTOMPADDING", (0, 0), (-1, -1), 0.6 * mm))
    blanks: list[Cell] = [caption(voice.say(f"accept.{key}")) for key in ("name", "date", "signature")]
    theirs: list[Cell] = [
        caption(voice.say(f"form.{key}")) for key in ("received-by", "received-on", "received-signature")
    ]
    block = ruled(
        [[(text(voice.say("form.text", **slots), STRONG), ticks), "", ""], *case_to_tick(paper, voice), blanks, theirs],
        shares(width, 64, 36, 70),
        boxed(HEAVY), between(), ("SPAN", (0, 0), (-1, 0)),
        ("LINEAFTER", (0, -2), (1, -1), 0.35, STRONG.textColor),
        ("BOTTOMPADDING", (0, -2), (-1, -2), 13 * mm), ("BOTTOMPADDING", (0, -1), (-1, -1), 9 * mm),
    )  # fmt: skip
    return [head, block, Spacer(0, 1 * mm), text(back, SMALL)]
