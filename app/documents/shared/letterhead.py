"""The head of a paper that goes out: the firm, what paper it is, the code; on a customer's for whom, and which car.

It decides nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Protocol

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from app.documents.contents import Customer, DonorCar, QuotationPaper
from app.documents.saying.voice import Voice
from app.documents.typesetting.lettering import CELL, HEAVY, SERIES, SMALL, STRONG, caption, style, text
from app.documents.typesetting.marks import Code, Stamp
from app.documents.typesetting.ruled import Cell, bare, boxed, ruled, shares, under, upright
from app.documents.typesetting.stationery import SIZES, Field, Stationery, firm_sheets

_FIRM = style("firm", 19, 22, fontName=STRONG.fontName)
_TITLE = style("title", 14, 18, fontName=STRONG.fontName)

#: Lines with the style of each.
Standing = Sequence[tuple[str, ParagraphStyle]]


class Sender(Protocol):
    """Whose paper it is, and where and under which numbers he is found; what he has not is empty."""

    @property
    def name(self) -> str: ...

    @property
    def address(self) -> tuple[str, ...]: ...

    @property
    def telephone(self) -> str: ...

    @property
    def email(self) -> str: ...

    @property
    def tax_number(self) -> str: ...

    @property
    def registration(self) -> str: ...


def look_of(paper: QuotationPaper, voice: Voice, title: str, *fields: Field, subject: str = "") -> Stationery:
    """The firm's sheets with these `fields` in the title block; DRAFT lies across what is not issued.

    `subject`: where it is not firm and customer.
    """
    return firm_sheets(
        voice.say,
        paper.locale,
        SIZES[paper.sheet],
        paper.firm.name,
        title,
        *fields,
        subject=subject or voice.say("head.subject", firm=paper.firm.name, customer=paper.customer.name),
        across="" if paper.issued else voice.say("block.across"),
    )


def look_beside(paper: QuotationPaper, voice: Voice, title: str, name: str, of: str) -> Stationery:
    """Of what goes with a quotation: its `title` as a document, its `name`, and what stands over the number."""
    return look_of(
        paper,
        voice,
        title,
        Field(voice.say("block.from"), paper.firm.name, 0.22),
        Field(voice.say("block.paper"), name, 0.2, strong=True),
        Field(of, f"{paper.number} · {paper.revision}", 0.22, strong=True),
        Field(voice.say("block.dated"), voice.figures.short_day(paper.dated), 0.13),
        Field(voice.say("block.book"), f"{paper.book.number} · {paper.tool_state}", 0.15),
    )


def letterhead(
    paper: QuotationPaper, title: str, standing: Standing, voice: Voice, width: float, stamp: Stamp | None = None
) -> list[Flowable]:
    """Who writes, what paper this is and how it stands; below, for whom it is and his donor car as stated.

    `stamp`: where it isn't that of the revision.
    """
    code, under_code = Code(paper.address) if paper.address else None, f"{paper.number} · {paper.revision}"
    head = masthead(paper.firm, stamp or _stamp(paper, voice), title, standing, voice.say, width, code, under_code)
    return [head, Spacer(0, 2.5 * mm), _parties(paper, voice, width)]


def masthead(
    sender: Sender,
    stamp: Stamp,
    title: str,
    standing: Standing,
    say: Callable[..., str],
    width: float,
    code: Code | None = None,
    under_code: str = "",
) -> Flowable:
    """The sender's name and address, the stamp, what paper this is and how it stands, and the code beside it."""
    beside = code.whole if code else 0.1
    left = width - beside
    name = (text(sender.name, _FIRM), text(" · ".join(sender_lines(sender, say)), SMALL))
    top = ruled([[name, stamp]], [left - stamp.width - 6 * mm, stamp.width + 6 * mm], *bare(), under(0, HEAVY), _AIR)
    said = (top, Spacer(0, 1.6 * mm), text(title, _TITLE), *(text(line, look) for line, look in standing))
    right: Cell = (code, text(under_code, _UNDER_CODE)) if code else Spacer(0, 0)
    return ruled([[said, right]], [left, beside], *bare())


def _stamp(paper: QuotationPaper, voice: Voice) -> Stamp:
    head = voice.say("head.issued" if paper.issued else "head.draft")
    return Stamp(head, f"{voice.figures.short_day(paper.dated)} · {paper.revision}", sure=paper.issued)


_AIR = ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6 * mm)
_UNDER_CODE = style("under-code", 8, fontName=STRONG.fontName, alignment=1)


def sender_lines(sender: Sender, say: Callable[..., str]) -> list[str]:
    """His address, how he is reached, and his numbers, in which no line breaks."""
    numbers = [
        say("head.tax-number", number=_unbroken(sender.tax_number)) if sender.tax_number else "",
        say("head.registration", number=_unbroken(sender.registration)) if sender.registration else "",
    ]
    return [line for line in (*sender.address, sender.telephone, sender.email, *numbers) if line]


def _unbroken(number: str) -> str:
    return number.replace(" ", "\N{NO-BREAK SPACE}")


def _parties(paper: QuotationPaper, voice: Voice, width: float) -> Flowable:
    left, right = shares(width, 44, 56)
    series = paper.donor.series
    lines = tuple(text(line, look) for line, look in _donor(paper.donor, voice))
    letters = text(voice.series(series), SERIES) if series else None
    donor: Cell = ruled([[letters, lines]], [20 * mm, right - 23 * mm], *bare()) if letters else lines
    customer = tuple(text(line, look) for line, look in _customer(paper, voice))
    return ruled(
        [[caption(voice.say("customer.heading")), caption(voice.say("donor.heading"))], [customer, donor]],
        [left, right],
        boxed(),
        upright(),
        ("BOTTOMPADDING", (0, 1), (-1, 1), 1.6 * mm),
    )


def _customer(paper: QuotationPaper, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    customer = paper.customer
    country = voice.figures.country(customer.country) if customer.country else ""
    lines = [
        *_named(customer, voice),
        *((line, CELL) for line in (*customer.address, country, _status(customer, voice)) if line),
    ]
    if customer.tax_number:
        lines.append((voice.say("customer.tax-number", number=customer.tax_number), SMALL))
    if customer.reference:
        lines.append((voice.say("customer.reference", reference=customer.reference), SMALL))
    if paper.intent:
        lines.append((voice.say(f"intent.{paper.intent.value}"), SMALL))
    return lines


def _for_dealer(customer: Customer) -> bool:
    """A dealer's prices are the dealer's to see: of his customer the paper speaks, but it is not made out to him."""
    return bool(customer.dealer) and not customer.trade


def _named(customer: Customer, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    if not _for_dealer(customer):
        return [(customer.name, STRONG)]
    return [(customer.dealer, STRONG), (voice.say("customer.of-dealer", name=customer.name), CELL)]


def _status(customer: Customer, voice: Voice) -> str:
    if _for_dealer(customer):
        return voice.say("customer.trade-paper")
    if not customer.trade:
        return voice.say("customer.private")
    return voice.say("customer.trade-terms" if customer.dealer else "customer.trade", dealer=customer.dealer)


def _donor(donor: DonorCar, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    if not donor.text and not donor.canonical and donor.series is None:
        return [(voice.say("donor.none"), CELL)]
    lines = [(_donor_number(donor, voice), STRONG), *_donor_standing(donor, voice)]
    if donor.body:
        lines.append((voice.say("donor.body", body=voice.role_choice("body", donor.body)), SMALL))
    if donor.market:
        lines.append((voice.say("donor.market", market=voice.role_choice("market", donor.market)), SMALL))
    if donor.gearbox:
        lines.append((voice.say("donor.gearbox", gearbox=voice.gearbox(donor.gearbox)), SMALL))
    return lines


def _donor_number(donor: DonorCar, voice: Voice) -> str:
    if not donor.text and not donor.canonical:
        return voice.say("donor.number-missing")
    if donor.canonical and donor.text not in ("", donor.canonical):
        return voice.say("donor.number-as-typed", number=donor.canonical, text=donor.text)
    return voice.say("donor.number", number=donor.canonical or donor.text)


def _donor_standing(donor: DonorCar, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    says = voice.say(f"donor.{donor.evidence.value}")
    if donor.established and donor.series:
        return [(voice.say("donor.established", series=voice.series(donor.series)) + " " + says, CELL)]
    return [(voice.say("donor.not-established"), STRONG), (says, CELL)]
