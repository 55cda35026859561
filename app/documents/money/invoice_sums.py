"""The tables of a document about money: its lines, what is set off, tax by category and rate, a refund's two shares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer, Table

from app.documents.saying.accounts import account_words
from app.documents.saying.speech import Speech
from app.documents.typesetting.lettering import (
    CAPTION_RIGHT,
    CELL,
    HEAVY,
    RIGHT,
    RIGHT_STRONG,
    SMALL,
    STRONG,
    caption,
    heading,
    text,
)
from app.documents.typesetting.ruled import Cell, between, boxed, headed, over, ruled, shares
from app.domain.money.invoice import CancelledShell, Content, Stated, Worksheet
from rules.money.settlement import tax_of
from rules.money.totals import InvoiceSum, TaxedSum


def line_rows(content: Content, speech: Speech, width: float) -> Table:
    """One row for each line, before tax, with the rate that it is taxed at."""
    figures = speech.figures
    names = ("invoice.line", "invoice.quantity", "invoice.rate", "invoice.net")
    head: list[Cell] = [caption(speech.say(names[0])), *(caption(speech.say(one), CAPTION_RIGHT) for one in names[1:])]
    rows: list[list[Cell]] = [
        [
            text(f"{number}. {speech.words(line.name)}", CELL),
            text(figures.number(line.quantity), RIGHT),
            text(figures.percent(line.percent), RIGHT),
            text(figures.money(line.net), RIGHT),
        ]
        for number, line in enumerate(content.lines, start=1)
    ]
    return ruled([head, *rows], shares(width, 100, 18, 22, 34), *headed(), between(1), heads=1)


def set_off(content: Content, speech: Speech, width: float) -> list[Flowable]:
    """What was billed in advance, document by document, each with its own tax."""
    if not content.set_off:
        return []
    head = ("invoice.set-off-document", "invoice.rate", "invoice.net", "invoice.tax", "invoice.with-tax")
    rows = [
        [
            speech.say("invoice.set-off-row", document=one.number, day=speech.figures.short_day(one.dated)),
            *_taxed(row, speech),
        ]
        for one in content.set_off
        for row in one.rows
    ]
    return [KeepTogether([heading(speech.say("invoice.set-off")), _figures(head, rows, speech, width)])]


def breakdown(content: Content, speech: Speech, width: float) -> Table:
    """Tax by category and rate, then the sums down to what is payable."""
    whole, money = content.sum, speech.figures.money
    tax = speech.words(content.tax_label)
    rows: list[list[Cell]] = [
        [
            text(speech.say("price.tax-on", tax=tax, percent=_percent(row, speech), sum=money(row.taxable)), CELL),
            text(money(row.tax), RIGHT),
        ]
        for row in whole.taxed
    ]
    first: list[Cell] = [text(speech.say("price.net-total", currency=content.currency), CELL)]
    sums = [[*first, text(money(whole.without_tax), RIGHT)], *rows, *_sums(content, whole, speech)]
    return ruled(sums, shares(width, 130, 44), boxed(HEAVY), between(), over(len(rows) + 1))


def _sums(content: Content, whole: InvoiceSum, speech: Speech) -> list[list[Cell]]:
    money, currency = speech.figures.money, content.currency
    told: list[list[Cell]] = [
        [text(speech.say("price.with-tax", currency=currency), STRONG), text(money(whole.with_tax), RIGHT_STRONG)]
    ]
    if not whole.prepaid:
        return told
    told.append([text(speech.say("invoice.prepaid"), CELL), text(speech.figures.off(whole.prepaid), RIGHT)])
    told.append(
        [text(speech.say("invoice.payable", currency=currency), STRONG), text(money(whole.payable), RIGHT_STRONG)]
    )
    return told


def stated(content: Content, speech: Speech, width: float) -> list[Flowable]:
    """What is taxed in the tax office's currency, and the rate that a person entered for it."""
    told = content.stated
    if told is None:
        return []
    other = replace(speech, figures=replace(speech.figures, currency=told.currency))
    head = ("invoice.stated-rows", "invoice.rate", "invoice.net", "invoice.tax", "invoice.with-tax")
    rows = [[speech.say("invoice.stated-row", currency=told.currency), *_taxed(row, other)] for row in told.rows]
    table = [heading(speech.say("invoice.stated", currency=told.currency)), _figures(head, rows, other, width)]
    whole = speech.say(
        "invoice.stated-tax", tax=speech.words(content.tax_label), sum=other.figures.money(tax_of(told.rows))
    )
    return [KeepTogether([*table, Spacer(0, 1.5 * mm), text(whole, STRONG), *_rate_words(content, told, speech)])]


def _rate_words(content: Content, told: Stated, speech: Speech) -> list[Flowable]:
    rate = told.exchange
    slots = {"rate": speech.figures.exact(Decimal(rate.rate)), "day": speech.figures.day(rate.day)}
    slots |= {"currency": content.currency, "home": told.currency, "source": rate.source}
    words = [speech.say("invoice.stated-credit" if content.credits else "invoice.stated-rate", **slots)]
    if told.taken_over:
        words.append(speech.say("invoice.stated-before", documents=", ".join(told.taken_over)))
    return [text(" ".join(words), SMALL)]


def worksheet(content: Content, speech: Speech, width: float) -> list[Flowable]:
    """The facts as they were told, then what was received, paid back and kept, each with its tax."""
    sheet = content.worksheet
    if sheet is None:
        return []
    facts: list[list[Cell]] = [
        [text(speech.say(f"invoice.{key}"), STRONG), text(told or "–", SMALL)] for key, told in _facts(sheet, speech)
    ]
    head = ("invoice.share", "invoice.rate", "invoice.net", "invoice.tax", "invoice.with-tax")
    shares_of = (("received", sheet.received), ("refunded", sheet.refunded), ("kept", sheet.kept))
    rows = [[speech.say(f"invoice.{name}"), *_taxed(row, speech)] for name, taxed in shares_of for row in taxed]
    return [
        heading(speech.say("invoice.facts")),
        ruled(facts, shares(width, 40, 134), boxed(), between()),
        KeepTogether([heading(speech.say("invoice.refund")), _figures(head, rows, speech, width)]),
    ]


def _stage_of(shell: CancelledShell, speech: Speech) -> str:
    """Which shell it was, and where it was when it was cancelled."""
    if not shell.serial:
        return speech.say("invoice.stage-of-planned", place=shell.place)
    where = speech.words(shell.stage) if shell.stage else speech.say("invoice.not-begun")
    return speech.say("invoice.stage-of", place=shell.place, serial=shell.serial, stage=where)


def _facts(sheet: Worksheet, speech: Speech) -> Sequence[tuple[str, str]]:
    documents = ", ".join(sheet.documents)
    stage = sheet.stage if sheet.of is None else _stage_of(sheet.of, speech)
    told = (("stage", stage), ("hours", sheet.hours), ("resale", sheet.resale), ("documents", documents))
    account = None if sheet.pay_to is None else account_words(sheet.pay_to, speech.say)
    return (*told, ("pay-back-to", account or speech.say("invoice.pay-back-unknown")))


def _percent(row: TaxedSum, speech: Speech) -> str:
    return speech.figures.percent(row.percent)


def _taxed(row: TaxedSum, speech: Speech) -> list[str]:
    sums = (row.taxable, row.tax, row.taxable + row.tax)
    return [_percent(row, speech), *(speech.figures.money(one) for one in sums)]


def _figures(head: Sequence[str], rows: Sequence[Sequence[str]], speech: Speech, width: float) -> Table:
    """A table whose first column is words and whose others are figures."""
    first, *rest = (speech.say(key) for key in head)
    top: list[Cell] = [caption(first), *(caption(words, CAPTION_RIGHT) for words in rest)]
    body: list[list[Cell]] = [[text(row[0], CELL), *(text(one, RIGHT) for one in row[1:])] for row in rows]
    return ruled([top, *body], shares(width, 66, 20, 30, 28, 30), *headed(), between(1), heads=1)
