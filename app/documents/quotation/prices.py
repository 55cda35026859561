"""Prices line by line, extras, and the sum down to deposit and balance, as the engine worked them. It adds nothing."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper
from app.documents.quotation.total import why_no_total
from app.documents.saying.voice import Voice
from app.documents.shared.alike import Places, alike, shells_name
from app.documents.typesetting.lettering import (
    CAPTION_RIGHT,
    CELL,
    HEAVY,
    OPENING_SMALL,
    RIGHT,
    RIGHT_SMALL,
    RIGHT_STRONG,
    SMALL,
    STRONG,
    SUBHEADING,
    THIN,
    caption,
    marked,
    opening,
    safe,
    text,
)
from app.documents.typesetting.ruled import Cell, between, dense, headed, over, ruled, shares, under
from app.documents.typesetting.stationery import inner_width
from rules.answer import Verdict
from rules.money.price import LineNet
from rules.money.totals import CaseTotal, ShellsPrice, Totals


def prices(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """The whole price; nothing on a copy without prices, nor where a shell can't be built."""
    if not paper.prices_shown or any(Verdict.CANT in shell.verdicts for shell in paper.shells):
        return []
    width = inner_width(paper.sheet)
    groups = alike(paper.shells, lambda shell: (voice.shell(shell), shell.price))
    head = voice.say("price.heading")
    if len(groups) == 1:
        name = opening(f"{head}: {shells_name(paper, groups[0], voice)}")
        tables = _shell(paper, groups[0], voice, width, name)
    else:
        tables = [opening(head)]
        for places in groups:
            tables += _shell(paper, places, voice, width, text(shells_name(paper, places, voice), OPENING_SMALL))
    rest = [*_extras(paper, voice, width), *_basis(paper, voice), *_sums(paper, voice, width)]
    return [CondPageBreak(60 * mm), *tables, *rest]


@dataclass(frozen=True, slots=True)
class _Columns:
    """Which columns a price table needs: one with nothing in it is left out."""

    adjusted: bool
    discount: bool
    several: bool

    @staticmethod
    def of(lines: tuple[LineNet, ...]) -> _Columns:
        return _Columns(
            any(line.adjustments for line in lines),
            any(line.discount for line in lines),
            any(line.several for line in lines),
        )

    def pick(self, line: Cell, listed: Cell, adjusted: Cell, discount: Cell, several: Cell, net: Cell) -> list[Cell]:
        middle = ((self.adjusted, adjusted), (self.discount, discount), (self.several, several))
        return [line, listed, *(cell for wanted, cell in middle if wanted), net]

    def widths(self, width: float) -> list[float]:
        middle = [24.0] * self.adjusted + [31.0] * self.discount + [24.0] * self.several
        return shares(width, 170 - 48 - sum(middle), 24, *middle, 24)


def _shell(paper: QuotationPaper, places: Places, voice: Voice, width: float, name: Flowable) -> list[Flowable]:
    shell = paper.shells[places[0]]
    if shell.price is None:
        return [name, text(voice.say("total.open"))]
    lines = shell.price.shell.lines
    columns = _Columns.of(lines)
    rows = [
        _head(columns, paper, voice),
        *(_line(columns, paper, line, voice) for line in lines),
        *(_unpriced(columns, line, voice) for line in shell.price.shell.unpriced),
        *_shell_sums(columns, paper, shell.price, voice),
    ]
    sums = len(_shell_sums(columns, paper, shell.price, voice))
    table = ruled(
        rows, columns.widths(width), *headed(), *dense(), between(1), over(-sums, THIN), under(-1, THIN),
        ("NOSPLIT", (0, -sums - 1), (-1, -1)), heads=1,
    )  # fmt: skip
    return [CondPageBreak(34 * mm), name, table]


def _head(columns: _Columns, paper: QuotationPaper, voice: Voice) -> list[Cell]:
    line = caption(voice.say("price.line", currency=paper.currency))
    keys = ("price.listed", "price.adjusted", "price.discount", "price.several", "price.net")
    return columns.pick(line, *(caption(voice.say(key), CAPTION_RIGHT) for key in keys))


def _line(columns: _Columns, paper: QuotationPaper, line: LineNet, voice: Voice) -> list[Cell]:
    figures = voice.figures
    listed = voice.say("price.not-priced") if line.listed is None else figures.money(line.listed)
    percent = paper.tariff.discounts.get(line.category)
    discount: list[Flowable] = [text(figures.off(line.discount), RIGHT)]
    if line.discount and percent is not None:
        discount = [text(f"{figures.percent(percent)}   {figures.off(line.discount)}", RIGHT)]
    return columns.pick(
        (text(voice.line(line.line)), *(text(label, SMALL) for label in _adjustments(line, voice))),
        text(listed, RIGHT),
        text(figures.money(line.adjusted) if line.adjustments else "", RIGHT),
        tuple(discount),
        text(figures.off(line.several), RIGHT),
        text(figures.money(line.net), RIGHT),
    )


def _adjustments(line: LineNet, voice: Voice) -> list[str]:
    labels = {adjustment.id: adjustment.label for adjustment in voice.book.adjustments}
    return [voice.words(labels[adjustment]) for adjustment in line.adjustments]


def _unpriced(columns: _Columns, line: str, voice: Voice) -> list[Cell]:
    missing = text(voice.say("price.not-priced"), RIGHT_STRONG)
    return columns.pick(text(voice.line(line)), "", "", "", "", missing)


def _shell_sums(columns: _Columns, paper: QuotationPaper, price: ShellsPrice, voice: Voice) -> list[list[Cell]]:
    pairs = [("price.one", price.shell.net)]
    if price.number > 1:
        pairs.append(("price.all", price.net))
    rows = []
    for key, net in pairs:
        label = text(voice.say(key, currency=paper.currency, quantity=price.number), STRONG)
        sum_ = voice.say("price.not-priced") if net is None else voice.figures.money(net)
        rows.append(columns.pick(label, "", "", "", "", text(sum_, RIGHT_STRONG)))
    return rows


def _extras(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    if not paper.extras:
        return []
    rows: list[list[Cell]] = [
        [
            caption(voice.say("price.extras", currency=paper.currency)),
            *(caption(voice.say(key), CAPTION_RIGHT) for key in ("price.each", "price.discount", "price.net")),
        ]
    ]
    units = {extra.id: extra.unit for extra in paper.book.extras}
    for extra in paper.extras:
        unit = voice.words(units[extra.extra])
        label = voice.say("price.extra", label=voice.extra_label(extra.extra), quantity=extra.quantity, unit=unit)
        sums = _extra_sums(extra.listed, extra.discount, extra.net, voice)
        rows.append([text(label), *(text(sum_, RIGHT) for sum_ in sums)])
    return [
        Spacer(0, 2 * mm),
        ruled(rows, shares(width, 98, 24, 24, 24), *headed(), *dense(), between(1), under(-1, THIN), heads=1),
    ]


def _extra_sums(listed: int | None, discount: int | None, net: int | None, voice: Voice) -> tuple[str, str, str]:
    if listed is None or net is None:
        return "", "", voice.say("price.not-priced")
    return voice.figures.money(listed), voice.figures.off(discount or 0), voice.figures.money(net)


def _basis(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    figures, terms = voice.figures, paper.book.terms
    lists = {entry.id: entry.label for entry in paper.book.lists}
    sentences = [voice.say("price.included")] if paper.shells else []
    sentences += [voice.say("price.list", list=voice.words(lists[paper.tariff.list]))]
    discounts = [
        voice.say("price.category", label=voice.words(category.label), percent=figures.percent(percent))
        for category in paper.book.categories
        if (percent := paper.tariff.discounts.get(category.id))
    ]
    if discounts:
        sentences.append(voice.say("price.trade", discounts=", ".join(discounts)))
    if terms.several_from:
        slots = {"count": terms.several_from, "percent": figures.percent(terms.several_percent)}
        sentences.append(voice.say("price.several-terms", **slots))
    return [Spacer(0, 1 * mm), text(" ".join(sentences), SMALL)]


def _sums(paper: QuotationPaper, voice: Voice, width: float) -> list[Flowable]:
    if paper.totals is None:
        return [Spacer(0, 1 * mm), text(why_no_total(paper, voice), STRONG)]
    cases = paper.totals.cases
    if len(cases) == _ABREAST and all(len(case.sum.taxed) == 1 for case in cases):
        return [KeepTogether([Spacer(0, 2 * mm), _abreast(paper, cases, voice, width), *_reasons(cases, voice)])]
    story: list[Flowable] = []
    for index, case in enumerate(cases):
        head = _case_head(paper.totals, index, voice)
        ladder = _ladder(paper, case, voice, width)
        story.append(KeepTogether([Spacer(0, 2 * mm), *head, ladder, *_reasons((case,), voice)]))
    return story


#: So many tax cases stand side by side, as far as each has one rate.
_ABREAST = 2


def _abreast(paper: QuotationPaper, cases: tuple[CaseTotal, ...], voice: Voice, width: float) -> Flowable:
    """The sums of every case side by side, for a person to decide between."""
    figures, currency = voice.figures, paper.currency
    percent = figures.percent(paper.book.terms.deposit_percent)
    heads = [voice.say(f"total.case-{case.kind}", letter="AB"[index]) for index, case in enumerate(cases)]
    taxes = [f"{figures.percent(c.sum.taxed[0].percent)}   {figures.money(c.sum.taxed[0].tax)}" for c in cases]
    within = [voice.say("total.deposit-tax", sum=figures.money(case.deposit_tax)) for case in cases]
    paid = [(text(figures.money(c.deposit), RIGHT), text(w, RIGHT_SMALL)) for c, w in zip(cases, within, strict=True)]
    rows: list[list[Cell]] = [
        ["", *(text(head, RIGHT_STRONG) for head in heads)],
        _step(voice.say("price.net-total", currency=currency), [figures.money(c.sum.without_tax) for c in cases]),
        _step(voice.words(paper.book.tax.label), taxes),
        _step(voice.say("price.with-tax", currency=currency), [figures.money(c.sum.with_tax) for c in cases], True),
        [text(voice.say("total.deposit", percent=percent, currency=currency)), *paid],
        _step(voice.say("price.balance", currency=currency), [figures.money(case.balance) for case in cases]),
    ]
    lines = under(0, THIN), over(3, THIN), under(3, HEAVY), under(-1, THIN)
    return ruled(rows, shares(width, 66, 52, 52), *dense(), *lines)


def _step(label: str, sums: list[str], whole: bool = False) -> list[Cell]:
    look, side = (STRONG, RIGHT_STRONG) if whole else (CELL, RIGHT)
    return [text(label, look), *(text(sum_, side) for sum_ in sums)]


def _case_head(totals: Totals, index: int, voice: Voice) -> list[Flowable]:
    if totals.decided:
        return []
    key = f"total.case-{totals.cases[index].kind}"
    return [text(voice.say(key, letter="AB"[index]), SUBHEADING)]


def _ladder(paper: QuotationPaper, case: CaseTotal, voice: Voice, width: float) -> Flowable:
    figures, currency, tax = voice.figures, paper.currency, voice.words(paper.book.tax.label)
    percent = figures.percent(paper.book.terms.deposit_percent)
    steps = [
        (voice.say("price.net-total", currency=currency), case.sum.without_tax, CELL, RIGHT),
        *(
            (voice.say("price.tax-on", tax=tax, percent=figures.percent(row.percent), sum=figures.money(row.taxable)),
             row.tax, CELL, RIGHT)
            for row in case.sum.taxed
        ),
        (voice.say("price.with-tax", currency=currency), case.sum.with_tax, STRONG, RIGHT_STRONG),
        (voice.say("price.deposit", percent=percent, currency=currency, tax=tax, sum=figures.money(case.deposit_tax)),
         case.deposit, CELL, RIGHT),
        (voice.say("price.balance", currency=currency), case.balance, CELL, RIGHT),
    ]  # fmt: skip
    rows = [[text(label, look), text(figures.money(amount), side)] for label, amount, look, side in steps]
    whole = len(case.sum.taxed) + 1
    lines = over(0, THIN), over(whole, THIN), under(whole, HEAVY), under(-1, THIN)
    return ruled(rows, shares(width, 138, 32), *dense(), *lines)


def _reasons(cases: tuple[CaseTotal, ...], voice: Voice) -> list[Flowable]:
    """Every reason and every caution of these cases, each once."""
    parts = [part for case in cases for part in case.parts]
    reasons = dict.fromkeys(voice.say(f"tax-reason.{part.reason}") for part in parts)
    cautions = dict.fromkeys(voice.say(f"tax-caution.{c}") for part in parts for c in part.cautions)
    head = voice.say("price.basis")
    return [Spacer(0, 0.8 * mm), marked(f"<b>{safe(head)}.</b> {safe(' '.join((*reasons, *cautions)))}", SMALL)]
