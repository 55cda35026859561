"""What one shell costs: its lines by list, adjustment, trade discount. Feasibility is no business of this module.

The order of work on a line: the list's amount × every factor that holds, rounded once; the trade discount of the
line's category off that, rounded; then, on a base line of an order for several shells, the several discount off what
is left, rounded. An allowance is a negative line and is worked the same way: the discount makes it smaller.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from math import prod

from rules.donor.resolve import domains_of, holds_with
from rules.model import Adjustment, Book, Line, Terms
from rules.money.rounding import half_up, percent_of
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Tariff:
    """Which price list, and the trade discount in percent by category; a category that is missing has none."""

    list: str
    discounts: Mapping[str, Decimal] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class LineNet:
    """One line of one shell, whole minor units: net = adjusted − discount − several.

    `listed`: the list's own amount, None where a waived line is not on the list. `adjustments`: ids of those that
    changed it. `several`: what an order for several shells takes off, after trade discount.
    """

    line: str
    category: str
    listed: int | None
    adjustments: tuple[str, ...]
    adjusted: int
    discount: int
    net: int
    several: int = 0


@dataclass(frozen=True, slots=True)
class ShellPrice:
    """One shell of a specification. `unpriced`: ids of lines that the list has no amount for; `net` None with any."""

    lines: tuple[LineNet, ...]
    unpriced: tuple[str, ...]
    net: int | None


def line_net(line: Line, adjustments: Iterable[Adjustment], tariff: Tariff) -> LineNet | None:
    """The line by the tariff, under those of `adjustments` (all of which hold) that name it; None: not priced.

    A waived line is free whatever the list says, also where the list says nothing: it is 0, not *not priced*.
    """
    on_it = tuple(adjustment for adjustment in adjustments if line.id in adjustment.lines)
    adjusted = _adjusted(line.amounts.get(tariff.list), on_it)
    return None if adjusted is None else _discounted(line, on_it, adjusted, tariff)


def price_shell(book: Book, made: Mapping[str, str], donor: Donor, tariff: Tariff, shells: int = 1) -> ShellPrice:
    """One shell's price for the choices `made` (option → choice); `shells`: uncancelled shells on the whole order."""
    lines, adjustments = lines_that_hold(book, made, donor)
    priced = [(line, line_net(line, adjustments, tariff)) for line in lines]
    nets = tuple(off_several(net, line, book.terms, shells) for line, net in priced if net is not None)
    unpriced = tuple(line.id for line, net in priced if net is None)
    return ShellPrice(nets, unpriced, None if unpriced else sum(net.net for net in nets))


def lines_that_hold(
    book: Book, made: Mapping[str, str], donor: Donor
) -> tuple[tuple[Line, ...], tuple[Adjustment, ...]]:
    """The lines and the adjustments that the choices made settle, in the book's order."""
    domains = domains_of(book)
    lines = tuple(line for line in book.lines if holds_with(line.when, book, donor, made, domains))
    changes = tuple(a for a in book.adjustments if holds_with(a.when, book, donor, made, domains))
    return lines, changes


def off_several(net: LineNet, line: Line, terms: Terms, shells: int) -> LineNet:
    """The line with the discount for several shells taken off, where it is a base line and there are enough shells."""
    if not line.base or not has_several(terms, shells):
        return net
    several = percent_of(net.net, terms.several_percent)
    return replace(net, several=several, net=net.net - several)


def has_several(terms: Terms, shells: int) -> bool:
    """Whether that many uncancelled shells earn the discount for several; terms with `several_from` 0 have none."""
    return 0 < terms.several_from <= shells


def _adjusted(listed: int | None, adjustments: tuple[Adjustment, ...]) -> int | None:
    if any(adjustment.waives for adjustment in adjustments):
        return 0
    if listed is None:
        return None
    return half_up(prod((adjustment.factor for adjustment in adjustments), start=Decimal(listed)))


def _discounted(line: Line, adjustments: tuple[Adjustment, ...], adjusted: int, tariff: Tariff) -> LineNet:
    discount = percent_of(adjusted, tariff.discounts.get(line.category, Decimal(0)))
    return LineNet(
        line=line.id,
        category=line.category,
        listed=line.amounts.get(tariff.list),
        adjustments=tuple(adjustment.id for adjustment in adjustments),
        adjusted=adjusted,
        discount=discount,
        net=adjusted - discount,
    )
