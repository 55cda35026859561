"""A dealer's own offer to his customer: the list's prices with his own percent on them. No trade price comes in here.

The percent goes on the price that the book has for everybody: list, adjustments, the discount for several shells. His
trade discount is no part of it, so nobody can work it out from the sums, whoever holds the list.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from rules.money.rounding import percent_of
from rules.money.totals import ExtraNet, QuotedPrice, ShellsPrice

#: What a dealer may put on the list's price, in percent, with so many decimals at most.
LEAST_MARGIN, MOST_MARGIN, MARGIN_DECIMALS = Decimal(0), Decimal(100), 2


@dataclass(frozen=True, slots=True)
class RetailTerms:
    """How a dealer heads his own offers, and his `margin` in percent on list; None: he has not said it yet."""

    address: str = ""
    telephone: str = ""
    email: str = ""
    margin: Decimal | None = None

    @property
    def missing(self) -> tuple[str, ...]:
        """What has to be said before an offer with prices can be made: address, margin."""
        said = {"address": bool(self.address.strip()), "margin": self.margin is not None}
        return tuple(name for name, there in said.items() if not there)


@dataclass(frozen=True, slots=True)
class RetailLine:
    """A price line of one shell, whole minor units before tax."""

    line: str
    amount: int


@dataclass(frozen=True, slots=True)
class RetailShells:
    """`one` is the price of each of `number` shells, `all` of them together."""

    lines: tuple[RetailLine, ...]
    one: int
    number: int
    all: int


@dataclass(frozen=True, slots=True)
class RetailExtra:
    """`quantity` pieces at `each`, `all` together."""

    extra: str
    quantity: int
    each: int
    all: int


@dataclass(frozen=True, slots=True)
class RetailSum:
    """A whole offer, before tax: the dealer adds the tax himself."""

    shells: tuple[RetailShells, ...]
    extras: tuple[RetailExtra, ...]
    before_tax: int


def retail_sum(at_list: QuotedPrice, margin: Decimal) -> RetailSum:
    """Each line with `margin` percent on it, half up, and the sum of what was rounded.

    `at_list` is priced without any trade discount, and wholly priced: ValueError otherwise.
    """
    if at_list.net is None:
        raise ValueError(f"not priced: {', '.join(at_list.unpriced)}")
    shells = tuple(_shells(price, margin) for price in at_list.lines)
    extras = tuple(_extra(extra, margin) for extra in at_list.extras)
    before_tax = sum(one.all for one in shells) + sum(one.all for one in extras)
    return RetailSum(shells, extras, before_tax)


def _shells(price: ShellsPrice, margin: Decimal) -> RetailShells:
    lines = tuple(RetailLine(net.line, _with(net.net, margin)) for net in price.shell.lines)
    one = sum(line.amount for line in lines)
    return RetailShells(lines, one, price.number, one * price.number)


def _extra(extra: ExtraNet, margin: Decimal) -> RetailExtra:
    each = _with(extra.listed or 0, margin)
    return RetailExtra(extra.extra, extra.quantity, each, each * extra.quantity)


def _with(amount: int, margin: Decimal) -> int:
    return amount + percent_of(amount, margin)
