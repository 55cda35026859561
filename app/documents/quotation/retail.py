"""A dealer's own offer as a PDF: his name and address, his price before tax. The firm stands on it as the maker alone.

What it is handed holds no trade price: `RetailPaper.quotation` is a quotation without any price, headed by the dealer.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.quotation.close import cautions, to_sign
from app.documents.quotation.ready import dates, sending
from app.documents.quotation.specification import specifications
from app.documents.saying.figures import Figures
from app.documents.saying.phrases import sentences
from app.documents.saying.voice import Voice
from app.documents.shared.alike import alike, shells_name
from app.documents.shared.answers import answer_panels
from app.documents.shared.letterhead import Standing, letterhead, look_of
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import (
    CAPTION_RIGHT,
    CELL,
    HEAVY,
    OPENING_SMALL,
    RIGHT,
    RIGHT_STRONG,
    SMALL,
    STRONG,
    SUBHEADING,
    SUM,
    THIN,
    caption,
    heading,
    opening,
    text,
)
from app.documents.typesetting.ruled import Cell, between, boxed, dense, headed, over, ruled, shares, under
from app.documents.typesetting.stationery import Field, Stationery, inner_width, print_sheets
from app.domain.quotations.retail import RetailExtra, RetailShells, RetailSum


@dataclass(frozen=True, slots=True)
class RetailPaper:
    """`quotation`: what is offered, with the dealer as its firm and no price in it. `sum` None leaves out every sum.

    `maker`: the firm's name.
    """

    quotation: QuotationPaper
    maker: str
    sum: RetailSum | None = None


@dataclass(frozen=True, slots=True)
class DealersVoice(Voice):
    """The papers' sentences, with the dealer's own in place of those in which the firm says *we*."""

    def say(self, key: str, **slots: object) -> str:
        said = sentences(self.language)
        own = f"retail-{key}"
        return said[own].format_map(slots) if own in said else Voice.say(self, key, **slots)


def retail_pdf(paper: RetailPaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """The offer as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    quoted = paper.quotation
    voice = DealersVoice(quoted.book, quoted.language, Figures(quoted.locale, quoted.currency))
    return print_sheets(_look(quoted, voice), _story(paper, voice))


def _look(quoted: QuotationPaper, voice: Voice) -> Stationery:
    title = voice.say("head.document-title", number=quoted.number, revision=quoted.revision)
    until = voice.figures.short_day(quoted.valid_until) if quoted.valid_until else voice.say("block.draft")
    return look_of(
        quoted,
        voice,
        title,
        Field(voice.say("block.from"), quoted.firm.name, 0.26),
        Field(voice.say("block.paper"), voice.say("head.title"), 0.18, strong=True),
        Field(voice.say("block.number"), f"{quoted.number} · {quoted.revision}", 0.21, strong=True),
        Field(voice.say("block.dated"), voice.figures.short_day(quoted.dated), 0.13),
        Field(voice.say("block.valid"), until, 0.15),
    )


def _story(paper: RetailPaper, voice: Voice) -> list[Flowable]:
    quoted, width = paper.quotation, inner_width(paper.quotation.sheet)
    title = f"{voice.say('head.title')} {quoted.number}"
    return [
        *letterhead(quoted, title, _standing(quoted, voice), voice, width),
        Spacer(0, 2 * mm),
        text(voice.say("retail.whose", dealer=quoted.firm.name, maker=paper.maker), SMALL),
        Spacer(0, 2 * mm),
        *_answers(quoted, voice, width),
        *_total(paper, voice, width),
        *dates(quoted, voice, width),
        *sending(quoted, voice, width),
        *specifications(quoted, voice),
        *_prices(paper, voice, width),
        *_closing(paper, voice, width),
    ]


def _standing(quoted: QuotationPaper, voice: Voice) -> Standing:
    dated = voice.say("head.dated", day=voice.figures.day(quoted.dated), author=quoted.author)
    lines = [(voice.say("head.revision", revision=quoted.revision), STRONG), (dated, CELL)]
    if quoted.valid_until is None:
        return [*lines, (voice.say("head.not-issued"), STRONG)]
    return [*lines, (voice.say("head.valid", until=voice.figures.day(quoted.valid_until)), CELL)]


def _answers(quoted: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    story: list[Flowable] = []
    for places in alike(quoted.shells, lambda shell: (voice.shell(shell), shell.quantity, shell.verdicts, shell.depends,
                                                      shell.differences, shell.days)):  # fmt: skip
        head = text(shells_name(quoted, places, voice), SUBHEADING if len(quoted.shells) > 1 else STRONG)
        panels = answer_panels(quoted, quoted.shells[places[0]], voice, width)
        story.append(KeepTogether([head, Spacer(0, 0.8 * mm), *panels]))
    return story


def _total(paper: RetailPaper, voice: Voice, width: float) -> list[Flowable]:
    head = heading(voice.say("retail.price"))
    if paper.sum is None:
        return [KeepTogether([head, text(voice.say("total.hidden"), STRONG)])]
    quoted = paper.quotation
    sums: list[Cell] = [
        text(voice.say("retail.before-tax", currency=quoted.currency), STRONG),
        text(voice.say("retail.adds-tax", dealer=quoted.firm.name)),
        text(voice.figures.money(paper.sum.before_tax), SUM),
    ]
    middle = ("VALIGN", (0, 0), (-1, -1), "MIDDLE")
    return [KeepTogether([head, ruled([sums], shares(width, 46, 78, 46), boxed(HEAVY), middle)])]


def _prices(paper: RetailPaper, voice: Voice, width: float) -> list[Flowable]:
    """Line by line; alike shells once."""
    if paper.sum is None:
        return []
    quoted, prices = paper.quotation, dict(zip(map(id, paper.quotation.shells), paper.sum.shells, strict=True))
    story: list[Flowable] = [CondPageBreak(60 * mm), opening(voice.say("retail.prices"))]
    for places in alike(quoted.shells, lambda shell: (voice.shell(shell), prices[id(shell)])):
        name = text(shells_name(quoted, places, voice), OPENING_SMALL)
        story += [name, _shell(quoted, paper.sum.shells[places[0]], voice, width)]
    if paper.sum.extras:
        story += [Spacer(0, 2 * mm), _extras(quoted, paper.sum.extras, voice, width)]
    whole = [[text(voice.say("retail.whole", currency=quoted.currency), STRONG),
              text(voice.figures.money(paper.sum.before_tax), RIGHT_STRONG)]]  # fmt: skip
    taxed = text(voice.say("retail.adds-tax-long", dealer=quoted.firm.name))
    table = ruled(whole, shares(width, 138, 32), *dense(), over(0, THIN), under(-1, HEAVY))
    included = text(voice.say("price.included"), SMALL)
    return [*story, Spacer(0, 1 * mm), included, KeepTogether([Spacer(0, 2 * mm), table, Spacer(0, 1 * mm), taxed])]


def _shell(quoted: QuotationPaper, price: RetailShells, voice: Voice, width: float) -> Flowable:
    figures, currency = voice.figures, quoted.currency
    rows: list[list[Cell]] = [
        [caption(voice.say("retail.line", currency=currency)), caption(voice.say("retail.amount"), CAPTION_RIGHT)]
    ]
    rows += [[text(voice.line(line.line)), text(figures.money(line.amount), RIGHT)] for line in price.lines]
    pairs = [("price.one", price.one), *([("price.all", price.all)] if price.number > 1 else [])]
    for key, amount in pairs:
        label = voice.say(key, currency=currency, quantity=price.number)
        rows.append([text(label, STRONG), text(figures.money(amount), RIGHT_STRONG)])
    kept = ("NOSPLIT", (0, -len(pairs) - 1), (-1, -1))
    lines = (between(1), over(-len(pairs), THIN), under(-1, THIN), kept)
    return ruled(rows, shares(width, 138, 32), *headed(), *dense(), *lines, heads=1)


def _extras(quoted: QuotationPaper, extras: tuple[RetailExtra, ...], voice: Voice, width: float) -> Flowable:
    keys = ("price.each", "retail.amount")
    heads: list[Cell] = [caption(voice.say("price.extras", currency=quoted.currency))]
    heads += [caption(voice.say(key), CAPTION_RIGHT) for key in keys]
    units = {extra.id: extra.unit for extra in quoted.book.extras}
    rows: list[list[Cell]] = [heads]
    for one in extras:
        slots = {"label": voice.extra_label(one.extra), "quantity": one.quantity, "unit": voice.words(units[one.extra])}
        sums = (text(voice.figures.money(amount), RIGHT) for amount in (one.each, one.all))
        rows.append([text(voice.say("price.extra", **slots)), *sums])
    return ruled(rows, shares(width, 106, 32, 32), *headed(), *dense(), between(1), under(-1, THIN), heads=1)


def _closing(paper: RetailPaper, voice: Voice, width: float) -> list[Flowable]:
    quoted = paper.quotation
    own = text(voice.say("retail.terms", dealer=quoted.firm.name), SMALL)
    return [KeepTogether([*cautions(quoted, voice), Spacer(0, 2 * mm), own, *_acceptance(paper, voice, width)])]


def _acceptance(paper: RetailPaper, voice: Voice, width: float) -> list[Flowable]:
    """The block to sign; none on a paper that names no price."""
    quoted, head = paper.quotation, heading(voice.say("accept.heading"))
    if paper.sum is None:
        return []
    if quoted.valid_until is None:
        return [head, text(voice.say("retail.no-draft"), STRONG)]
    slots = {"dealer": quoted.firm.name, "number": quoted.number, "revision": quoted.revision}
    return [head, to_sign(voice.say("retail.accept", **slots), voice, width)]
