"""What the papers of a shell that leaves have in common: head, parties, packages, cautions. It decides nothing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from app.documents.contents import Sheet
from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.phrases import sentences
from app.documents.saying.speech import Speech
from app.documents.shared.letterhead import Standing, masthead
from app.documents.typesetting.lettering import (
    CAPTION_RIGHT,
    CELL,
    HEAVY,
    RIGHT,
    SMALL,
    STRONG,
    caption,
    heading,
    style,
    text,
)
from app.documents.typesetting.marks import Code, Stamp
from app.documents.typesetting.ruled import Cell, bare, between, boxed, dense, headed, ruled, shares, upright
from app.documents.typesetting.stationery import SIZES, Field, Stationery, firm_sheets
from app.domain.despatch.consignment import Chosen, Consignment, Paper
from app.domain.despatch.despatch import Package
from rules.wordings import wording_of

_SERIAL = style("leaving-serial", 20, 24, fontName=STRONG.fontName)

#: On which of the book's papers the standing cautions of each are found.
CAUTIONED = {
    Paper.PACKING_LIST: "",
    Paper.DESPATCH_ADVICE: "delivery-note",
    Paper.EXPORT_DATA: "",
    Paper.EVIDENCE_LETTER: "evidence-letter",
    Paper.DECLARATION: "conformity-declaration",
}


def speech_of(told: Consignment, language: str) -> Speech:
    """In one language, the firm's own texts for shipped ones, with the figures of the customer's own country."""
    said = {key: told.said.get(wording_of(key), {}).get(language) or text for key, text in sentences(language).items()}
    return Speech(said, language, Figures(locale_for(language, told.locale), told.currency))


def title_of(told: Consignment, paper: Paper, speech: Speech) -> str:
    """The evidence letter's says when an old part is built in."""
    old = paper is Paper.EVIDENCE_LETTER and told.old_parts
    return speech.say(f"leaving.title-{paper}-old-part" if old else f"leaving.title-{paper}")


def look_of(told: Consignment, paper: Paper, speech: Speech, sheet: Sheet) -> Stationery:
    """The firm's sheets with the title block of this paper; DRAFT lies across what has not left."""
    name = speech.say(f"leaving.short-{paper}")
    return firm_sheets(
        speech.say,
        speech.figures.locale,
        SIZES[sheet],
        told.seller.name,
        f"{title_of(told, paper, speech)} {told.number or told.serial}",
        Field(speech.say("block.from"), told.seller.name, 0.24),
        Field(speech.say("block.paper"), name, 0.22, strong=True),
        Field(speech.say("leaving.serial"), told.serial, 0.2, strong=True),
        Field(speech.say("block.dated"), speech.figures.short_day(told.dated), 0.13),
        Field(speech.say("invoice.order"), told.order, 0.21),
        subject=speech.say("invoice.subject", paper=name, firm=told.seller.name, customer=told.buyer.name),
        across=speech.say("block.across") if told.draft else "",
    )


def head(told: Consignment, paper: Paper, speech: Speech, width: float, address: str = "") -> list[Flowable]:
    """Who writes, which paper, of which shell; a code where it leads anywhere."""
    code = Code(address, 22 * mm) if address else None
    title, standing = title_of(told, paper, speech), _standing(told, speech)
    under_code = speech.say("leaving.record-code")
    top = masthead(told.seller, _stamp(told, speech), title, standing, speech.say, width, code, under_code)
    return [top, Spacer(0, 2 * mm), *_named(told, speech)]


def _stamp(told: Consignment, speech: Speech) -> Stamp:
    words = speech.say("head.draft") if told.draft else speech.say("leaving.stamp")
    return Stamp(words, speech.figures.short_day(told.dated), sure=not told.draft)


def _standing(told: Consignment, speech: Speech) -> Standing:
    day = speech.figures.day(told.dated)
    of = speech.say("leaving.of-order", order=told.order, quotation=told.quotation, letter=told.letter)
    slots = {"day": day, "author": told.author, "signed": told.signed, "number": told.number}
    return [(of, STRONG), (speech.say("leaving.draft" if told.draft else "leaving.dated", **slots), CELL)]


def _named(told: Consignment, speech: Speech) -> list[Flowable]:
    return [text(told.serial, _SERIAL), text(speech.words(told.name), STRONG), Spacer(0, 1.5 * mm)]


def parties(told: Consignment, speech: Speech, width: float) -> Flowable:
    """The customer, and to whom it goes."""
    country = speech.figures.country
    buyer = (told.buyer.name, *told.buyer.address, country(told.buyer.country) if told.buyer.country else "")
    goes = (*told.packing.consignee, country(told.goes_to) if told.goes_to else "")
    cells: list[Cell] = [_lines(buyer), _lines(goes)]
    heads: list[Cell] = [caption(speech.say("customer.heading")), caption(speech.say("leaving.consignee"))]
    return ruled([heads, cells], shares(width, 50, 50), boxed(), upright(), ("BOTTOMPADDING", (0, 1), (-1, 1), 4))


def _lines(lines: Iterable[str]) -> tuple[Flowable, ...]:
    told = [line for line in lines if line]
    return tuple(text(line, STRONG if at == 0 else CELL) for at, line in enumerate(told)) or (text("–", CELL),)


def facts(rows: Sequence[tuple[str, str]], width: float) -> Flowable:
    """What it is, and what is said of it; nothing of what is empty."""
    cells: list[list[Cell]] = [[text(name, STRONG), text(said, CELL)] for name, said in rows if said]
    return ruled(cells, shares(width, 46, 128), boxed(), between(), upright())


def packages(told: Consignment, speech: Speech, width: float) -> list[Flowable]:
    """Each piece that is lifted, and all of them together."""
    names = ("package", "kind", "size", "mass")
    top: list[Cell] = [
        caption(speech.say(f"leaving.{name}"), *([CAPTION_RIGHT] if name == "mass" else [])) for name in names
    ]
    rows: list[list[Cell]] = [
        [
            text(speech.figures.number(number), CELL),
            text(package.kind, CELL),
            text(size(package, told, speech), CELL),
            text(mass(package.mass, told, speech), RIGHT),
        ]
        for number, package in enumerate(told.packing.packages, start=1)
    ]
    table = ruled([top, *rows], shares(width, 14, 64, 62, 34), *headed(), between(1), heads=1)
    gross, net = (mass(kg, told, speech) for kg in (told.packing.gross_mass, told.packing.net_mass))
    whole = speech.say("leaving.together", count=len(told.packing.packages), gross=gross, net=net)
    return [heading(speech.say("leaving.packages")), table, Spacer(0, 1 * mm), text(whole, STRONG)]


def size(package: Package, told: Consignment, speech: Speech) -> str:
    """Length, width, height in mm, and in inches for whoever reads those."""
    sides = (package.length, package.width, package.height)
    metric = " × ".join(speech.figures.measure(Decimal(side)) for side in sides)
    if not told.imperial:
        return speech.say("leaving.size-metric", metric=metric)
    return speech.say("leaving.size-both", metric=metric, inches=" × ".join(speech.figures.inches(s) for s in sides))


def mass(kg: int, told: Consignment, speech: Speech) -> str:
    metric, pounds = speech.figures.number(kg), speech.figures.pounds(kg)
    return speech.say("leaving.mass-both" if told.imperial else "leaving.mass-metric", kg=metric, pounds=pounds)


def side_by_side(one: list[Flowable], other: list[Flowable], width: float) -> Flowable:
    """Two short parts of a paper beside each other."""
    return ruled([[tuple(one), tuple(other)]], shares(width, 50, 50), *bare())


def listing(name: str, lines: Sequence[str], speech: Speech) -> list[Flowable]:
    """A heading and one line each; that there is none is said, too."""
    told = [text(f"– {line}", CELL) for line in lines] or [text(speech.say("leaving.none"), CELL)]
    return [heading(speech.say(f"leaving.{name}")), *told]


def chosen(rows: Sequence[Chosen], speech: Speech, width: float) -> Flowable:
    """Options with their choices, in the book's words; three of them beside each other."""
    cells: list[Cell] = [_pair(one, speech) for one in rows]
    cells += [Spacer(0, 0)] * (-len(cells) % 3)
    threes = [cells[at : at + 3] for at in range(0, len(cells), 3)]
    return ruled(threes, shares(width, 1, 1, 1), boxed(), between(), upright(), *dense())


def _pair(one: Chosen, speech: Speech) -> Flowable:
    return text(speech.say("leaving.option", option=speech.words(one.option), choice=speech.words(one.choice)), SMALL)


def cautions(told: Consignment, paper: Paper, speech: Speech, width: float) -> list[Flowable]:
    """The book's standing cautions for this paper."""
    said = [speech.words(words) for words in told.cautions.get(CAUTIONED[paper], ())]
    if not said:
        return []
    box = ruled([[tuple(text(words, CELL) for words in said)]], [width], boxed(HEAVY))
    return [heading(speech.say("close.cautions")), box]


def to_fill(rows: Sequence[Sequence[str]], speech: Speech, width: float, room: float) -> Flowable:
    """Empty boxes with what is to be written into each, and so much room under that; each row fills the width."""
    return ruled([[_boxes(row, speech, width, room)] for row in rows], [width], *bare(), boxed(HEAVY), between())


def _boxes(names: Sequence[str], speech: Speech, width: float, room: float) -> Flowable:
    cells: list[Cell] = [caption(speech.say(f"leaving.{name}")) for name in names]
    return ruled([cells], shares(width, *[1] * len(cells)), upright(), ("BOTTOMPADDING", (0, 0), (-1, -1), room))
