"""The total on page one, with tax, deposit and balance: once, or for each tax case. It adds nothing up."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.lettering import HEAVY, RIGHT, RIGHT_SMALL, STRONG, SUM, heading, style, text
from app.documents.ruled import Cell, boxed, ruled, shares, upright
from app.documents.voice import Voice
from rules.answer import Verdict
from rules.totals import CaseTotal


def total(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    why_none = _why_no_total(paper, voice)
    if why_none or paper.totals is None:
        return [KeepTogether([heading(voice.say("total.heading")), text(why_none, STRONG)])]
    bands: list[Flowable] = []
    for index, case in enumerate(paper.totals.cases):
        bands += [*_case_head(paper, index, case, voice), _case_band(paper, case, voice, width), Spacer(0, 1 * mm)]
    if not paper.totals.decided:
        bands.append(text(voice.say("total.decide"), STRONG))
    return [KeepTogether([heading(voice.say("total.heading")), *bands])]


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
    heads = [text(words, _BAND_CAPTION) for words in captions]
    return ruled([heads, sums], shares(width, 30, 26, 44, 38, 32), boxed(HEAVY), upright(), *_STRONG_BAND)


_BAND_CAPTION = style("band-caption", 7.2, alignment=2)
_STRONG_BAND = (("VALIGN", (0, 1), (-1, 1), "TOP"), ("BOTTOMPADDING", (0, 1), (-1, 1), 1.4 * mm))
