"""Page one: who, which car, the answer, the total, the date range, and what the customer must send."""

from __future__ import annotations

from collections.abc import Hashable
from functools import partial

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, PageBreak, Spacer

from app.documents.alike import Places, alike, shells_name
from app.documents.answers import answer_panels, rows_of, short_answers
from app.documents.contents import DonorCar, QuotationPaper, ShellLine
from app.documents.lettering import CELL, HEAVY, SERIES, SMALL, STRONG, SUBHEADING, caption, opening, style, text
from app.documents.marks import Code, Stamp
from app.documents.quotation_changes import change_rows, changes
from app.documents.quotation_ready import dates, sending
from app.documents.quotation_total import total
from app.documents.ruled import Cell, bare, boxed, ruled, shares, under, upright
from app.documents.stationery import inner_width
from app.documents.voice import Voice
from rules.answer import Verdict

_FIRM = style("firm", 19, 22, fontName=STRONG.fontName)
_TITLE = style("title", 14, 18, fontName=STRONG.fontName)


def front(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The story of page one."""
    width = inner_width(paper.sheet)
    groups = alike(paper.shells, partial(_answered, voice))
    short = _short(paper, groups)
    answers = _in_short(paper, groups, voice, width) if short else _answers(paper, groups, voice, width)
    return [
        _letterhead(paper, voice, width),
        Spacer(0, 2.5 * mm),
        _parties(paper, voice, width),
        Spacer(0, 3 * mm),
        *_body(paper, answers, len(groups) <= _FEW, voice, width),
    ]


#: With more answers than this even their short form fills page one by itself: total and dates then go before them.
_FEW = 6
#: A change list longer than this ends page one, and runs over, rather than standing in the way of the rest.
_MANY_CHANGES = 8
#: What one answer may say beside a change list before it, too, is told in short.
_BRIEF = 3


def _short(paper: QuotationPaper, groups: list[Places]) -> bool:
    """Whether page one tells the answers in short, so that it also holds total, dates and what is to be sent."""
    return len(groups) > 1 or bool(paper.changes and any(rows_of(shell) > _BRIEF for shell in paper.shells))


def _body(paper: QuotationPaper, answers: list[Flowable], few: bool, voice: Voice, width: float) -> list[Flowable]:
    rows = change_rows(paper, voice)
    changed = changes(paper, rows, voice, width)
    early, late = (changed, []) if len(rows) <= _MANY_CHANGES else ([], changed)
    sums = [*total(paper, voice, width), *dates(paper, voice, width)]
    sent = sending(paper, voice, width)
    return [*answers, *early, *sums, *sent, *late] if few else [*early, *sums, *sent, *answers, *late]


def _letterhead(paper: QuotationPaper, voice: Voice, width: float) -> Flowable:
    code = Code(paper.address)
    left = width - code.whole
    name = (text(paper.firm.name, _FIRM), text(" · ".join(_firm_lines(paper, voice)), SMALL))
    stamp = _stamp(paper, voice)
    top = ruled([[name, stamp]], [left - stamp.width - 6 * mm, stamp.width + 2 * mm], *bare(), under(0, HEAVY), _AIR)
    firm = [
        top,
        Spacer(0, 1.6 * mm),
        text(f"{voice.say('head.title')} {paper.number}", _TITLE),
        *(text(line, look) for line, look in _standing(paper, voice)),
    ]
    right = [code, text(f"{paper.number} · {paper.revision}", _UNDER_CODE)]
    return ruled([[tuple(firm), tuple(right)]], [left, code.whole], *bare())


def _stamp(paper: QuotationPaper, voice: Voice) -> Stamp:
    head = voice.say("head.issued" if paper.issued else "head.draft")
    return Stamp(head, f"{voice.figures.short_day(paper.dated)} · {paper.revision}", sure=paper.issued)


_AIR = ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6 * mm)
_UNDER_CODE = style("under-code", 8, fontName=STRONG.fontName, alignment=1)


def _firm_lines(paper: QuotationPaper, voice: Voice) -> list[str]:
    firm = paper.firm
    numbers = [
        voice.say("head.tax-number", number=firm.tax_number) if firm.tax_number else "",
        voice.say("head.registration", number=firm.registration) if firm.registration else "",
    ]
    return [line for line in (*firm.address, firm.telephone, firm.email, *numbers) if line]


def _standing(paper: QuotationPaper, voice: Voice) -> list[tuple[str, ParagraphStyle]]:
    figures = voice.figures
    key = "head.replaces" if paper.changes else "head.revision"
    superseded = paper.changes.against if paper.changes else ""
    lines = [
        (voice.say(key, revision=paper.revision, superseded=superseded), STRONG),
        (voice.say("head.dated", day=figures.day(paper.dated), author=paper.author), CELL),
    ]
    if not paper.issued or paper.valid_until is None:
        return [*lines, (voice.say("head.not-issued"), STRONG)]
    days = (paper.valid_until - paper.dated).days
    until = figures.day(paper.valid_until)
    return [
        *lines,
        (voice.say("head.valid", days=days, until=until, zone=voice.figures.zone(paper.book.calendar.zone)), CELL),
    ]


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
    status = voice.say("customer.private")
    if customer.trade:
        key = "customer.trade-terms" if customer.dealer else "customer.trade"
        status = voice.say(key, dealer=customer.dealer)
    country = voice.figures.country(customer.country) if customer.country else ""
    lines = [(customer.name, STRONG), *((line, CELL) for line in (*customer.address, country) if line)]
    lines.append((status, CELL))
    if customer.tax_number:
        lines.append((voice.say("customer.tax-number", number=customer.tax_number), SMALL))
    if customer.reference:
        lines.append((voice.say("customer.reference", reference=customer.reference), SMALL))
    if paper.intent:
        lines.append((voice.say(f"intent.{paper.intent.value}"), SMALL))
    return lines


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


def _in_short(paper: QuotationPaper, groups: list[Places], voice: Voice, width: float) -> list[Flowable]:
    """A line or two for each answer; what it depends on and differs in follows at length."""
    named = [(shells_name(paper, places, voice), paper.shells[places[0]]) for places in groups]
    return [short_answers(paper, named, voice, width), text(voice.say("answer.in-short"), SMALL)]


def at_length(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """On the sheet that follows, what page one told in short; nothing where it told all."""
    groups = alike(paper.shells, partial(_answered, voice))
    if not _short(paper, groups):
        return []
    head = opening(voice.say("answer.at-length"))
    return [PageBreak(), head, *_answers(paper, groups, voice, inner_width(paper.sheet))]


def _answers(paper: QuotationPaper, groups: list[Places], voice: Voice, width: float) -> list[Flowable]:
    if not groups:
        return [text(voice.say("answer.none"), STRONG)]
    story: list[Flowable] = []
    for places in groups:
        shell = paper.shells[places[0]]
        head = text(shells_name(paper, places, voice), SUBHEADING if len(paper.shells) > 1 else STRONG)
        panels = answer_panels(paper, shell, voice, width)
        story += [KeepTogether([head, Spacer(0, 0.8 * mm), *panels]), *_still_open(shell, voice)]
    return story


def _answered(voice: Voice, shell: ShellLine) -> Hashable:
    """All that is said of a line's answer."""
    said = (shell.verdicts, shell.depends, shell.causes, shell.differences, shell.days, shell.open_questions)
    return voice.shell(shell), shell.quantity, said


def _still_open(shell: ShellLine, voice: Voice) -> list[Flowable]:
    if not shell.open_questions or Verdict.CANT in shell.verdicts:
        return []
    options = ", ".join(voice.option(option) for option in shell.open_questions)
    return [text(voice.say("answer.open", options=options), STRONG)]
