"""A document about an order's money as a PDF: deposit, balance, credit note, refund worksheet. It adds nothing up."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer

from app.documents.contents import Sheet
from app.documents.money.invoice_sums import breakdown, line_rows, set_off, stated, worksheet
from app.documents.saying.accounts import account_words
from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.phrases import sentences
from app.documents.saying.speech import Speech
from app.documents.shared.letterhead import Standing, masthead
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import CELL, SMALL, STRONG, caption, heading, text
from app.documents.typesetting.marks import Stamp
from app.documents.typesetting.ruled import boxed, ruled
from app.documents.typesetting.stationery import SIZES, Field, Stationery, firm_sheets, inner_width, print_sheets
from app.domain.money.invoice import CameAs, Content, Kind


def invoice_pdf(content: Content, language: str, sheet: Sheet, font_folder: Path = fonts.FOLDER) -> bytes:
    """The paper as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    speech = spoken(content, language)
    return print_sheets(_stationery(content, speech, sheet), _story(content, speech, inner_width(sheet)))


def spoken(content: Content, language: str) -> Speech:
    """How the document speaks in that language."""
    return Speech(sentences(language), language, Figures(locale_for(language, content.locale), content.currency))


def _stationery(content: Content, speech: Speech, sheet: Sheet) -> Stationery:
    title = f"{_name(content, speech)} {content.number}"
    return firm_sheets(
        speech.say,
        speech.figures.locale,
        SIZES[sheet],
        content.seller.name,
        title,
        Field(speech.say("block.from"), content.seller.name, 0.24),
        Field(speech.say("block.paper"), _name(content, speech), 0.22, strong=True),
        Field(speech.say("invoice.number"), content.number, 0.2, strong=True),
        Field(speech.say("block.dated"), speech.figures.short_day(content.dated), 0.13),
        Field(speech.say("invoice.order"), content.order, 0.19),
        subject=speech.say("invoice.subject", paper=title, firm=content.seller.name, customer=content.buyer.name),
    )


def _name(content: Content, speech: Speech) -> str:
    return speech.say(f"invoice.title-{content.kind.value}")


def _story(content: Content, speech: Speech, width: float) -> list[Flowable]:
    sums = worksheet if content.worksheet is not None else _bill
    return [
        _head(content, speech, width),
        Spacer(0, 2.5 * mm),
        _parties(content, speech, width),
        *_told(content, speech),
        *sums(content, speech, width),
        *_tax_words(content, speech),
        *_closing(content, speech),
    ]


def _bill(content: Content, speech: Speech, width: float) -> list[Flowable]:
    return [
        heading(speech.say("invoice.lines", currency=content.currency)),
        line_rows(content, speech, width),
        *set_off(content, speech, width),
        KeepTogether([heading(speech.say("invoice.sum")), breakdown(content, speech, width)]),
        *stated(content, speech, width),
        *_came(content.came_as, content, speech),
    ]


def _head(content: Content, speech: Speech, width: float) -> Flowable:
    name = _name(content, speech)
    stamp = Stamp(name, speech.figures.short_day(content.dated), sure=True)
    title, standing = f"{name} {content.number}", _standing(content, speech)
    return masthead(content.seller, stamp, title, standing, speech.say, width)


def _standing(content: Content, speech: Speech) -> Standing:
    day = speech.figures.day
    lines = [
        (
            speech.say("invoice.of-order", order=content.order, quotation=content.quotation, letter=content.letter),
            STRONG,
        ),
        (speech.say("head.dated", day=day(content.dated), author=content.author), CELL),
    ]
    if content.kind is not Kind.WORKSHEET:
        lines.append((speech.say("invoice.tax-point", day=day(content.tax_point)), CELL))
    if content.credits and content.credits_dated:
        slots = {"document": content.credits, "day": day(content.credits_dated), "line": content.credited_line}
        key = "invoice.credits-line" if content.credited_line else "invoice.credits"
        lines.append((speech.say(key, **slots), STRONG))
    return lines


def _parties(content: Content, speech: Speech, width: float) -> Flowable:
    buyer = content.buyer
    country = speech.figures.country(buyer.country) if buyer.country else ""
    lines = [(buyer.name, STRONG), *((line, CELL) for line in (*buyer.address, country) if line)]
    if buyer.tax_number:
        lines.append((speech.say("customer.tax-number", number=buyer.tax_number), SMALL))
    cell = tuple(text(words, look) for words, look in lines)
    return ruled([[caption(speech.say("customer.heading"))], [cell]], [width], boxed())


def _told(content: Content, speech: Speech) -> list[Flowable]:
    """Why, in the words of whoever wrote it."""
    if not content.why:
        return []
    conceded = conceded_words(content, speech)
    return [heading(speech.say("invoice.why")), *(text(words, CELL) for words in (content.why, conceded) if words)]


def conceded_words(content: Content, speech: Speech) -> str:
    """What was conceded, with shell and day, or as somebody wrote it; empty where a credit is for no concession."""
    granted = content.granted
    if granted is None:
        return speech.say("invoice.concession", concession=content.concession.rstrip(".")) if content.concession else ""
    slots = {"subject": speech.words(granted.subject), "serial": granted.serial, "day": speech.figures.day(granted.day)}
    return speech.say("invoice.granted", **slots)


def _came(came: CameAs | None, content: Content, speech: Speech) -> list[Flowable]:
    """The money as it came; what it counts for where that was agreed."""
    if came is None:
        return []
    money = Figures(speech.figures.locale, came.currency).money
    day = speech.figures.day
    slots = {"sum": money(came.amount), "day": day(came.day), "means": speech.say(f"invoice.means-{came.means}")}
    lines = [speech.say("invoice.paid", **slots)]
    if came.rate and came.rate_day:
        lines.append(speech.say("invoice.agreed", **_agreed(came, came.rate_day, content, speech)))
    return [Spacer(0, 1.5 * mm), *(text(line, CELL) for line in lines)]


def _agreed(came: CameAs, rate_day: date, content: Content, speech: Speech) -> dict[str, str]:
    counts = speech.figures.money(content.sum.with_tax)
    return {
        "sum": counts,
        "rate": speech.figures.exact(Decimal(came.rate)),
        "day": speech.figures.day(rate_day),
        "by": came.agreed_by,
    }


def _tax_words(content: Content, speech: Speech) -> list[Flowable]:
    """Why it is taxed as it is, and what must be watched for that."""
    ids = [*(f"tax-reason.{one}" for one in content.reasons), *(f"tax-caution.{one}" for one in content.cautions)]
    words = [speech.say(one) for one in ids if one != "tax-caution.a-person-decides"]
    return [heading(speech.say("price.basis")), text(" ".join(words), SMALL)] if words else []


def _closing(content: Content, speech: Speech) -> list[Flowable]:
    if content.kind is Kind.WORKSHEET:
        return [Spacer(0, 2 * mm), *_cancelled(content, speech), text(speech.say("invoice.worksheet-only"), STRONG)]
    if content.kind is Kind.CREDIT_NOTE:
        return [Spacer(0, 2 * mm), text(speech.say("invoice.untouched"), SMALL)]
    return [Spacer(0, 2 * mm), *_pay_to(content, speech), text(speech.say("close.payment-bank"), SMALL)]


def _pay_to(content: Content, speech: Speech) -> list[Flowable]:
    account = content.seller.account
    if account is None or content.sum.payable <= 0:
        return []
    words = speech.say("invoice.pay-to", account=account_words(account, speech.say), number=content.number)
    return [heading(speech.say("close.payment")), text(words, STRONG)]


def _cancelled(content: Content, speech: Speech) -> list[Flowable]:
    """What a customer may take back differs with what was made for him."""
    shell = None if content.worksheet is None else content.worksheet.of
    if shell is None:
        return []
    return [text(speech.say("invoice.cancelled-stock" if shell.from_stock else "invoice.cancelled-made"), SMALL)]
