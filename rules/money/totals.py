"""From line nets to what is payable: totals, tax by category and rate, deposit. Whole minor units.

Tax is worked once per category and rate, never per line, and what was rounded is not rounded again. The names and the
order of the sum are those of EN 16931 (BR-CO-10 … BR-CO-17), so any invoice runs through the same functions.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from rules.model import Book, Extra, Terms
from rules.money.price import ShellPrice, Tariff, has_several, price_shell
from rules.money.rounding import half_up_exactly, percent_of
from rules.money.tax import TaxCase
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Taxable:
    """An amount that belongs to a tax category (EN 16931 code) at a rate in percent."""

    amount: int
    category: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class TaxedSum:
    """One row of the tax breakdown: `tax` on `taxable` at `percent`, half up."""

    category: str
    percent: Decimal
    taxable: int
    tax: int


@dataclass(frozen=True, slots=True)
class InvoiceSum:
    """`allowances` and `charges` are sums of document-level ones, both written positive."""

    lines_net: int
    allowances: int
    charges: int
    without_tax: int
    taxed: tuple[TaxedSum, ...]
    tax: int
    with_tax: int
    prepaid: int
    payable: int


@dataclass(frozen=True, slots=True)
class Wanted:
    """A line of a quotation: this specification, for this donor, `number` times; `cases`: its tax cases.

    `charge`: what is taken for each beside the price of the list, before tax.
    """

    made: Mapping[str, str]
    donor: Donor
    number: int
    cases: tuple[TaxCase, ...] = ()
    charge: int = 0


@dataclass(frozen=True, slots=True)
class ShellsPrice:
    """`shell` is the price of each of `number`; `net` of them all, None where not priced.

    What is charged for a shell beside its lines is in the `net` of both.
    """

    shell: ShellPrice
    number: int
    net: int | None


@dataclass(frozen=True, slots=True)
class ExtraNet:
    """`quantity` pieces of an extra, `listed` and `discount` for each; all None where not priced."""

    extra: str
    category: str
    quantity: int
    listed: int | None
    discount: int | None
    net: int | None


@dataclass(frozen=True, slots=True)
class QuotedPrice:
    """`shells`: how many over all lines; `unpriced`: ids of lines and extras with no amount; `net` None with any."""

    shells: int
    lines: tuple[ShellsPrice, ...]
    extras: tuple[ExtraNet, ...]
    unpriced: tuple[str, ...]
    net: int | None


@dataclass(frozen=True, slots=True)
class CaseTotal:
    """The whole sum under one tax case. `deposit_tax`: the tax that the deposit contains.

    `parts`: the tax cases that the lines fall under here, each once; more than one where lines are taxed differently.
    """

    kind: str
    parts: tuple[TaxCase, ...]
    sum: InvoiceSum
    deposit: int
    deposit_tax: int
    balance: int


@dataclass(frozen=True, slots=True)
class Totals:
    """`decided` False: a person must decide which of the cases it is; each is given in full."""

    lines_net: int
    cases: tuple[CaseTotal, ...]
    decided: bool


def sum_up(
    lines: Iterable[Taxable],
    allowances: Iterable[Taxable] = (),
    charges: Iterable[Taxable] = (),
    prepaid: int = 0,
) -> InvoiceSum:
    """EN 16931's sum; document-level allowances and charges are given positive, each in its own tax category."""
    lines, allowances, charges = tuple(lines), tuple(allowances), tuple(charges)
    taxed = tax_breakdown((*lines, *(_less(a) for a in allowances), *charges))
    without_tax, tax = sum(row.taxable for row in taxed), sum(row.tax for row in taxed)
    return InvoiceSum(
        lines_net=_amount(lines),
        allowances=_amount(allowances),
        charges=_amount(charges),
        without_tax=without_tax,
        taxed=taxed,
        tax=tax,
        with_tax=without_tax + tax,
        prepaid=prepaid,
        payable=without_tax + tax - prepaid,
    )


def tax_breakdown(parts: Iterable[Taxable]) -> tuple[TaxedSum, ...]:
    """One row per category and rate, in the order met; a line less its share of an allowance is summed before tax."""
    taxable: dict[tuple[str, Decimal], int] = {}
    for part in parts:
        key = (part.category, part.percent)
        taxable[key] = taxable.get(key, 0) + part.amount
    return tuple(TaxedSum(c, percent, amount, percent_of(amount, percent)) for (c, percent), amount in taxable.items())


def price_quotation(book: Book, wanted: Sequence[Wanted], extras: Mapping[str, int], tariff: Tariff) -> QuotedPrice:
    """Lines and extras before tax; shells are counted over all lines. `extras`: id → quantity, KeyError if unknown."""
    shells = sum(line.number for line in wanted)
    lines = tuple(_shells_price(price_shell(book, w.made, w.donor, tariff, shells), w.number, w.charge) for w in wanted)
    by_id = {extra.id: extra for extra in book.extras}
    nets = tuple(extra_net(by_id[extra], quantity, tariff) for extra, quantity in extras.items() if quantity)
    unpriced = (*(u for line in lines if line.number for u in line.shell.unpriced), *_unpriced(nets))
    net = _whole((*(line.net for line in lines), *(extra.net for extra in nets)))
    return QuotedPrice(shells, lines, nets, tuple(dict.fromkeys(unpriced)), net)


def extra_net(extra: Extra, quantity: int, tariff: Tariff) -> ExtraNet:
    """The extra by the tariff: trade discount by its category on each piece, half up."""
    listed = extra.amounts.get(tariff.list)
    if listed is None:
        return ExtraNet(extra.id, extra.category, quantity, None, None, None)
    discount = percent_of(listed, tariff.discounts.get(extra.category, Decimal(0)))
    return ExtraNet(extra.id, extra.category, quantity, listed, discount, (listed - discount) * quantity)


def total(price: QuotedPrice, wanted: Sequence[Wanted], terms: Terms) -> Totals | None:
    """What is payable, under every case in question; None where something is not priced.

    Every line of `wanted` has its tax cases. Extras go with the line of the highest rate: never untaxed for want of a
    decision.
    """
    if price.net is None:
        return None
    kinds = _kinds_in_question(wanted)
    return Totals(price.net, tuple(_case_total(kind, price, wanted, terms) for kind in kinds), len(kinds) == 1)


def tax_in(deposit: int, whole: InvoiceSum) -> int:
    """The tax that a part payment contains, shared over the whole's categories by what each is with tax; half up."""
    if not whole.with_tax:
        return 0
    contained = sum(((row.taxable + row.tax) * _share_of_tax(row.percent) for row in whole.taxed), start=Fraction())
    return half_up_exactly(deposit * contained / whole.with_tax)


def dearer_each(before: QuotedPrice, after: QuotedPrice) -> tuple[int | None, ...]:
    """Before tax, how much more each shell of a line costs once the order has shrunk; to be said before confirming.

    Both prices have the same lines in the same order; a line that is dropped keeps its place with number 0.
    """
    pairs = zip(before.lines, after.lines, strict=True)
    return tuple(None if (a := x.shell.net) is None or (b := y.shell.net) is None else b - a for x, y in pairs)


def with_tax(amount: int, percent: Decimal) -> int:
    """An amount with its tax, half up: for a difference that is told, not for a total."""
    return amount + percent_of(amount, percent)


def with_extra(tariff: Tariff, terms: Terms, extra: Decimal) -> Tariff:
    """The tariff with an extra discount, in percent points, on the category that has a ceiling."""
    category = terms.ceiling_category
    return Tariff(tariff.list, {**tariff.discounts, category: tariff.discounts.get(category, Decimal(0)) + extra})


def manager_must_approve(terms: Terms, tariff: Tariff, extra: Decimal, shells: int = 1) -> bool:
    """Whether an extra discount (percent points) takes the total on a line of the ceiling's category beyond it.

    The total on a base line counts the discount for several shells too. Without an extra discount nobody is asked: the
    trade discount was agreed with the dealer, and several shells are everybody's terms.
    """
    left = 100 - tariff.discounts.get(terms.ceiling_category, Decimal(0)) - extra
    if has_several(terms, shells):
        left = left * (100 - terms.several_percent) / 100
    return extra > 0 and 100 - left > terms.ceiling_percent


def _shells_price(shell: ShellPrice, number: int, charge: int) -> ShellsPrice:
    """A dropped line (number 0) costs nothing, priced or not."""
    if number == 0:
        return ShellsPrice(shell, 0, 0)
    if charge and shell.net is not None:
        shell = replace(shell, net=shell.net + charge)
    return ShellsPrice(shell, number, None if shell.net is None else shell.net * number)


def _unpriced(extras: Iterable[ExtraNet]) -> tuple[str, ...]:
    return tuple(extra.extra for extra in extras if extra.net is None)


def _whole(nets: Iterable[int | None]) -> int | None:
    whole = 0
    for net in nets:
        if net is None:
            return None
        whole += net
    return whole


def _kinds_in_question(wanted: Sequence[Wanted]) -> tuple[str, ...]:
    """The kinds between which a person decides; where every line is decided, the one that names the whole."""
    open_lines = [line for line in wanted if len(line.cases) > 1] or list(wanted[:1])
    return tuple(dict.fromkeys(case.kind for line in open_lines for case in line.cases))


def _case_total(kind: str, price: QuotedPrice, wanted: Sequence[Wanted], terms: Terms) -> CaseTotal:
    cases = [next((case for case in line.cases if case.kind == kind), line.cases[0]) for line in wanted]
    highest = max(cases, key=lambda case: case.percent)
    nets = [(line.net, case) for line, case in zip(price.lines, cases, strict=True)]
    nets += [(extra.net, highest) for extra in price.extras]
    whole = sum_up(Taxable(net or 0, case.category, case.percent) for net, case in nets)
    deposit = percent_of(whole.payable, terms.deposit_percent)
    return CaseTotal(kind, tuple(dict.fromkeys(cases)), whole, deposit, tax_in(deposit, whole), whole.payable - deposit)


def _amount(parts: Iterable[Taxable]) -> int:
    return sum(part.amount for part in parts)


def _share_of_tax(percent: Decimal) -> Fraction:
    """The part of a taxed amount that is its tax: 20 % of 100 is 20 of 120."""
    return Fraction(percent) / (100 + Fraction(percent))


def _less(part: Taxable) -> Taxable:
    return Taxable(-part.amount, part.category, part.percent)
