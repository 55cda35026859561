"""Page one: who, which car, the answer, the total, the date range, and what the customer must send."""

from __future__ import annotations

from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer

from app.documents.answers import answer_panels, part_name
from app.documents.contents import DonorCar, Gate, QuotationPaper, ShellLine
from app.documents.lettering import (
    BODY,
    CELL,
    HEADING,
    HEAVY,
    RIGHT,
    RIGHT_SMALL,
    SERIES,
    SMALL,
    STRONG,
    SUBHEADING,
    SUM,
    THIN,
    caption,
    safe,
    strong,
    style,
    text,
)
from app.documents.marks import Code, Stamp, TickBox
from app.documents.ruled import Cell, bare, between, boxed, headed, ruled, shares, under, upright
from app.documents.stationery import inner_width
from app.documents.voice import Voice
from rules.answer import Verdict
from rules.totals import CaseTotal

_FIRM = style("firm", 19, 22, fontName=STRONG.fontName)
_TITLE = style("title", 14, 18, fontName=STRONG.fontName)


def front(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The story of page one."""
    width = inner_width(paper.sheet)
    return [
        _letterhead(paper, voice, width),
        Spacer(0, 2.5 * mm),
        _parties(paper, voice, width),
        Spacer(0, 3 * mm),
        *_body(paper, voice, width),
        *_sending(paper, voice, width),
    ]


#: With more lines than this the answers fill page one by themselves: total and dates then go before them.
_FEW = 3


def _body(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    answers = _answers(paper, voice, width)
    sums = [*_total(paper, voice, width), *_dates(paper, voice, width)]
    return [*answers, *sums] if len(paper.shells) <= _FEW else [*sums, *answers]


def shell_name(paper: QuotationPaper, index: int, voice: Voice) -> str:
    """The shell in a few words, with its place where there are several lines."""
    shell = paper.shells[index]
    what = voice.shell(shell)
    if shell.quantity > 1:
        what += " — " + voice.say("shell.quantity", quantity=shell.quantity)
    if len(paper.shells) == 1:
        return voice.say("shell.only", what=what)
    return voice.say("shell.name", index=index + 1, count=len(paper.shells), what=what)


def _letterhead(paper: QuotationPaper, voice: Voice, width: float) -> Flowable:
    code = Code(paper.address)
    left = width - code.whole
    name = (Paragraph(safe(paper.firm.name), _FIRM), text(" · ".join(_firm_lines(paper, voice)), SMALL))
    stamp = _stamp(paper, voice)
    top = ruled([[name, stamp]], [left - stamp.width - 6 * mm, stamp.width + 2 * mm], *bare(), under(0, HEAVY), _AIR)
    firm = [
        top,
        Spacer(0, 1.6 * mm),
        Paragraph(safe(f"{voice.say('head.title')} {paper.number}"), _TITLE),
        *(text(line, look) for line, look in _standing(paper, voice)),
    ]
    right = [code, Paragraph(safe(f"{paper.number} · {paper.revision}"), _UNDER_CODE)]
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
    key = "head.replaces" if paper.superseded else "head.revision"
    lines = [
        (voice.say(key, revision=paper.revision, superseded=paper.superseded), STRONG),
        (voice.say("head.dated", day=figures.day(paper.dated), author=paper.author), CELL),
    ]
    if not paper.issued or paper.valid_until is None:
        return [*lines, (voice.say("head.not-issued"), STRONG)]
    days = (paper.valid_until - paper.dated).days
    until = figures.day(paper.valid_until)
    return [*lines, (voice.say("head.valid", days=days, until=until, zone=paper.book.calendar.zone), CELL)]


def _parties(paper: QuotationPaper, voice: Voice, width: float) -> Flowable:
    left, right = shares(width, 44, 56)
    series = paper.donor.series
    lines = tuple(text(line, look) for line, look in _donor(paper.donor, voice))
    letters = Paragraph(safe(voice.series(series)), SERIES) if series else None
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


def _answers(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    story: list[Flowable] = []
    for index, shell in enumerate(paper.shells):
        head = Paragraph(safe(shell_name(paper, index, voice)), SUBHEADING if len(paper.shells) > 1 else STRONG)
        panels = answer_panels(paper, shell, voice, width)
        story += [KeepTogether([head, Spacer(0, 1 * mm), *panels]), *_still_open(shell, voice)]
    return story


def _still_open(shell: ShellLine, voice: Voice) -> list[Flowable]:
    if not shell.open_questions or Verdict.CANT in shell.verdicts:
        return []
    options = ", ".join(voice.option(option) for option in shell.open_questions)
    return [text(voice.say("answer.open", options=options), STRONG)]


def _total(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    why_none = _why_no_total(paper, voice)
    if why_none or paper.totals is None:
        return [KeepTogether([_band_head(voice.say("total.heading")), text(why_none, STRONG)])]
    bands: list[Flowable] = []
    for index, case in enumerate(paper.totals.cases):
        bands += [*_case_head(paper, index, case, voice), _case_band(paper, case, voice, width), Spacer(0, 1 * mm)]
    if not paper.totals.decided:
        bands.append(text(voice.say("total.decide"), STRONG))
    return [KeepTogether([_band_head(voice.say("total.heading")), *bands])]


def _why_no_total(paper: QuotationPaper, voice: Voice) -> str:
    if not paper.prices_shown:
        return voice.say("total.hidden")
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return voice.say("total.cant")
    missing = voice.unpriced(paper)
    if missing:
        return voice.say("total.not-priced", lines=", ".join(missing))
    return "" if paper.totals else voice.say("total.open")


def _case_head(paper: QuotationPaper, index: int, case: CaseTotal, voice: Voice) -> list[Flowable]:
    if paper.totals is None or paper.totals.decided:
        return []
    return [text(voice.say(f"total.case-{case.kind}", letter="AB"[index]), STRONG)]


def _case_band(paper: QuotationPaper, case: CaseTotal, voice: Voice, width: float) -> Flowable:
    figures, currency, whole = voice.figures, paper.currency, case.sum
    percents = " + ".join(figures.percent(row.percent) for row in whole.taxed)
    deposit_percent = figures.percent(paper.book.terms.deposit_percent)
    tax = voice.words(paper.book.tax.label)
    captions = (
        voice.say("total.before-tax", currency=currency),
        voice.say("total.tax", tax=tax, percent=percents),
        voice.say("total.with-tax", currency=currency),
        voice.say("total.deposit", percent=deposit_percent, currency=currency),
        voice.say("total.balance", currency=currency),
    )
    within = voice.say("total.deposit-tax", sum=figures.money(case.deposit_tax))
    sums: list[Cell] = [
        text(figures.money(whole.without_tax), RIGHT),
        text(figures.money(whole.tax), RIGHT),
        text(figures.money(whole.payable), SUM),
        (text(figures.money(case.deposit), RIGHT), text(within, RIGHT_SMALL)),
        text(figures.money(case.balance), RIGHT),
    ]
    heads = [Paragraph(safe(words), _BAND_CAPTION) for words in captions]
    return ruled([heads, sums], shares(width, 30, 26, 44, 38, 32), boxed(HEAVY), upright(), *_STRONG_BAND)


_BAND_CAPTION = style("band-caption", 7.2, alignment=2)
_STRONG_BAND = (("VALIGN", (0, 1), (-1, 1), "TOP"), ("BOTTOMPADDING", (0, 1), (-1, 1), 1.4 * mm))


def _band_head(words: str) -> Flowable:
    return Paragraph(safe(words), HEADING)


def _dates(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    head = _band_head(voice.say("date.heading"))
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return [KeepTogether([head, text(voice.say("date.cant"), BODY)])]
    if any(shell.days is None for shell in paper.shells):
        return [KeepTogether([head, text(voice.say("date.open"), BODY)])]
    gates = _gate_boxes(_gates(paper, voice), width)
    return [KeepTogether([head, *_ranges(paper, voice), gates, text(voice.say("date.basis"), SMALL)])]


def _gate_boxes(sentences: list[str], width: float) -> Flowable:
    """The gates with a box each to tick, two abreast."""
    cells: list[list[Cell]] = [[TickBox(3 * mm), text(sentence)] for sentence in sentences]
    if len(cells) % 2:
        cells.append(["", ""])
    rows = [left + right for left, right in zip(cells[::2], cells[1::2], strict=True)]
    half = width / 2 - 6 * mm
    return ruled(rows, [6 * mm, half, 6 * mm, half], *_TIGHT)


_TIGHT = (("TOPPADDING", (0, 0), (-1, -1), 0.2 * mm), ("BOTTOMPADDING", (0, 0), (-1, -1), 0.3 * mm))


def _ranges(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    days = [shell.days for shell in paper.shells if shell.days]
    first = voice.say("date.range", earliest=days[0].earliest, latest=days[0].latest)
    line = first if len(set(days)) == 1 else voice.say("date.ranges")
    additions = dict.fromkeys(name for shell in paper.shells for name in _additions(shell, voice))
    story: list[Flowable] = [text(line, STRONG)]
    return [*story, text(voice.say("date.includes", additions=", ".join(additions)), SMALL)] if additions else story


def _additions(shell: ShellLine, voice: Voice) -> list[str]:
    by_id = {addition.id: addition for addition in voice.book.additions}
    return [voice.words(by_id[addition].label) for addition in (shell.days.additions if shell.days else ())]


def _gates(paper: QuotationPaper, voice: Voice) -> list[str]:
    sentences = [voice.say(f"date.{gate.value}") for gate in paper.gates if gate is not Gate.TOOLS]
    for down in paper.tools_down:
        key = "date.tool-until" if down.until else "date.tool-open"
        day = voice.figures.day(down.until) if down.until else ""
        sentences.append(voice.say(key, tool=voice.tool(down.tool), day=day))
    return sentences


def _sending(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return []
    head = _band_head(voice.say("send.heading"))
    parts = _parts(paper)
    if not parts:
        return [KeepTogether([head, text(voice.say("send.none"), BODY)])]
    table = _parts_table(paper, parts, voice, width)
    consequence = text(voice.say("send.consequence"), BODY)
    return [KeepTogether([head, table, Spacer(0, 1 * mm), consequence])]


def _parts(paper: QuotationPaper) -> dict[str, str]:
    """Rules of the parts needed → the stage before which each must have passed."""
    return {rule: (paper.book.rule(rule).needed_before or "") for shell in paper.shells for rule in shell.depends.parts}


def _parts_table(paper: QuotationPaper, parts: dict[str, str], voice: Voice, width: float) -> Flowable:
    keys = ("send.part", "send.reason", "send.needed")
    rows: list[list[Cell]] = [[caption(voice.say(key)) for key in keys]]
    for rule, stage in parts.items():
        part = part_name(voice, rule)
        name = f"{strong(rule)}&nbsp; {strong(part[:1].upper() + part[1:])}{_which(paper, rule, voice)}"
        rows.append([Paragraph(name, CELL), text(voice.reason(rule)), text(voice.stage(stage), STRONG)])
    return ruled(rows, shares(width, 46, 88, 36), *headed(), between(1), under(-1, THIN), heads=1)


def _which(paper: QuotationPaper, rule: str, voice: Voice) -> str:
    if len(paper.shells) == 1:
        return ""
    shells = [
        str(i)
        for i, shell in enumerate(paper.shells, start=1)
        if rule in (*shell.depends.parts, *shell.depends.approvals)
    ]
    return "<br/>" + safe(voice.say("send.shells", shells=", ".join(shells)))
