"""The total on page one, with tax, deposit and balance: once, or for each tax case. It adds nothing up."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.saying.voice import Voice
from app.documents.typesetting.lettering import HEAVY, RIGHT, RIGHT_SMALL, STRONG, SUM, heading, style, text
from app.documents.typesetting.ruled import Cell, Command, boxed, over, ruled, shares, upright
from rules.answer import Verdict
from rules.money.totals import CaseTotal, Totals


def total(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    why_none = why_no_total(paper, voice)
    if why_none or paper.totals is None:
        return [KeepTogether([heading(voice.say("total.heading")), text(why_none, STRONG)])]
    bands: list[Flowable] = [_bands(paper, paper.totals, voice, width), Spacer(0, 1 * mm)]
    if not paper.totals.decided:
        bands.append(text(voice.say("total.decide"), STRONG))
    return [KeepTogether([heading(voice.say("total.heading")), *bands])]


def why_no_total(paper: QuotationPaper, voice: Voice) -> str:
    if not paper.prices_shown:
        return voice.say("total.hidden")
    if any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return voice.say("total.cant")
    missing = voice.unpriced(paper)
    if missing:
        return voice.say("total.not-priced", lines=", ".join(missing))
    return "" if paper.totals else voice.say("total.open")


def _bands(paper: QuotationPaper, totals: Totals, voice: Voice, width: float) -> Flowable:
    """A band of sums for each tax case, under one head; the case is named where there is more than one."""
    rows: list[list[Cell]] = [[text(words, _BAND_CAPTION) for words in _captions(paper, totals, voice)]]
    commands: list[Command] = [boxed(HEAVY), upright()]
    for index, case in enumerate(totals.cases):
        if not totals.decided:
            commands += [("SPAN", (0, len(rows)), (-1, len(rows))), over(len(rows))]
            rows.append([text(voice.say(f"total.case-{case.kind}", letter="AB"[index]), STRONG), "", "", "", ""])
        commands += [("BOTTOMPADDING", (0, len(rows)), (-1, len(rows)), 1.4 * mm)]
        rows.append(_sums(case, voice))
    return ruled(rows, shares(width, 30, 26, 44, 38, 32), *commands)


def _captions(paper: QuotationPaper, totals: Totals, voice: Voice) -> tuple[str, ...]:
    """The rate stands in the head where there is but one case, else beside its tax."""
    figures, currency, tax = voice.figures, paper.currency, voice.words(paper.book.tax.label)
    percents = _percents(totals.cases[0], voice) if totals.decided else ""
    return (
        voice.say("total.before-tax", currency=currency),
        voice.say("total.tax", tax=tax, percent=percents).strip(),
        voice.say("total.with-tax", currency=currency),
        voice.say("total.deposit", percent=figures.percent(paper.book.terms.deposit_percent), currency=currency),
        voice.say("total.balance", currency=currency),
    )


def _percents(case: CaseTotal, voice: Voice) -> str:
    return " + ".join(voice.figures.percent(row.percent) for row in case.sum.taxed)


def _sums(case: CaseTotal, voice: Voice) -> list[Cell]:
    figures, whole = voice.figures, case.sum
    within = voice.say("total.deposit-tax", sum=figures.money(case.deposit_tax))
    return [
        text(figures.money(whole.without_tax), RIGHT),
        text(figures.money(whole.tax), RIGHT),
        text(figures.money(whole.payable), SUM),
        (text(figures.money(case.deposit), RIGHT), text(within, RIGHT_SMALL)),
        text(figures.money(case.balance), RIGHT),
    ]


_BAND_CAPTION = style("band-caption", 7.2, alignment=2)
