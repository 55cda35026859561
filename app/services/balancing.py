"""The balance of an order, billed shell by shell or for all that is left, with what was billed in advance set off.

Each shell has its share of what was paid in advance, whichever is billed first. A bill taxes its own lines at the rate
of its day, so bills of single shells may differ from one bill of them all by what a penny rounds.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.crediting import balance_of_place, balances_in, left_in_advance, share_in_advance
from app.domain.errors import DocumentStands, NotFound, NothingToBill, ShellStands, TaxUndecided
from app.domain.invoice import BESIDE_THE_SHELLS, Billed, Exchange, Kind, Line, SetOff
from app.domain.order import Order, OrderLine, Shell, case_of
from app.domain.quotation import FrozenLine
from app.domain.shell import Barred, ShellState
from app.services import printing
from app.services.accounts import Opened, opened
from app.services.making_out import Desk, content_of, keep
from app.services.once import Once, perform
from app.services.pricing import Deal, cases_of, day_of
from app.services.publishing import book as book_of
from app.services.stating import set_off_of, state
from app.store.db import Store
from rules.model import Book, Role, Words
from rules.settlement import balance_of, gross, less, part_of, shared_by
from rules.tax import STANDARD_RATE, TaxCase, TaxRefusal, rate_on
from rules.totals import CaseTotal, Taxable

#: Shells that are built no further: nobody is billed for them.
_GONE = (ShellState.CANCELLED, ShellState.REJECTED)


@dataclass(frozen=True, slots=True)
class Placed:
    """A shell at its place in the order, from 1."""

    place: int
    line: OrderLine
    shell: Shell

    @property
    def frozen(self) -> FrozenLine:
        """What it is built as."""
        return self.line.frozen_of(self.shell)


def bill_balance(
    store: Store,
    actor: Actor,
    number: str,
    now: datetime,
    *,
    shell: int | None = None,
    exchange: Exchange | None = None,
    once: Once | None = None,
) -> str:
    """The document of one shell's price, or of all that is not billed yet, less what was paid in advance. Its number.

    What the order has beside its shells goes with the first. `exchange`: where the tax has to be stated in another
    currency besides; what documents in advance stated stays as it was.

    Raises NotFound, BadInput, TaxUndecided, DocumentStands, ShellStands, NothingToBill, FirmUntold, KeyReused,
    Underway.
    """

    def write(db: Database) -> str:
        found = opened(db, actor, number, now)
        case, wanted = decided_case(found.order), _wanted(found, shell)
        desk, order = Desk(store, db, actor, now), found.order
        lines, shares = _lines(desk, order, case, wanted), shares_of(store, order)
        advance = _set_off(found, wanted, shares)
        prepaid = less([row for one in advance for row in one.rows], ())
        balance = balance_of([Taxable(line.net, line.category, line.percent) for line in lines], prepaid)
        moved = tuple(_moved_line(desk.book, part) for part in balance.moved)
        told = state(desk.book, order.frozen.currency, balance.sum.taxed, exchange, desk.today, advance)
        content = content_of(desk, order, case, Kind.BALANCE, desk.today, balance.sum)
        billed = tuple(_billed(order, wanted, shares))
        return keep(desk, order, replace(content, lines=(*lines, *moved), set_off=advance, stated=told, billed=billed))

    return str(perform(store, once, now, write))


def decided_case(order: Order) -> CaseTotal:
    """The tax case that holds. Raises TaxUndecided."""
    case = case_of(order)
    if case is None:
        raise TaxUndecided(number=order.number)
    return case


def placed(order: Order) -> tuple[Placed, ...]:
    """Every shell at its place."""
    each = ((line, shell) for line in order.lines for shell in line.shells)
    return tuple(Placed(place, line, shell) for place, (line, shell) in enumerate(each, start=1))


def shares_of(store: Store, order: Order) -> Mapping[int, int]:
    """Place → its part of the price with tax; together they are the price. Raises TaxUndecided."""
    case, of = decided_case(order), book_of(store, order.revision.book or 0)
    deal, every = deal_of(of, order), placed(order)
    percents = {one.place: _taxed(deal, case, one.frozen).percent for one in every}
    weights = {one.place: _with_tax(_net(one.frozen), percents[one.place]) for one in every}
    if order.frozen.extras:
        beside = sum(extra.net or 0 for extra in order.frozen.extras)
        weights[BESIDE_THE_SHELLS] = _with_tax(beside, max(percents.values()))
    return dict(zip(weights, shared_by([*weights.values()], case.sum.payable), strict=True))


def _with_tax(net: int, percent: Decimal) -> Fraction:
    return net * (100 + Fraction(percent)) / 100


def _net(frozen: FrozenLine) -> int:
    return frozen.price.shell.net or 0


def _wanted(found: Opened, shell: int | None) -> tuple[int, ...]:
    """The places to be billed. Raises NotFound, DocumentStands, ShellStands, NothingToBill."""
    every = placed(found.order)
    if shell is None:
        places = _left(found, [one.place for one in every if one.shell.state not in _GONE])
    else:
        places = (_asked(found, every, shell),)
    return (*_beside(found), *places)


def _asked(found: Opened, every: tuple[Placed, ...], shell: int) -> int:
    one = next((one for one in every if one.shell.id == shell), None)
    if one is None:
        raise NotFound(what="shell", name=str(shell))
    if one.shell.state in _GONE:
        raise ShellStands(serial=one.shell.serial or "", why=Barred.OVER.value)
    standing = balance_of_place(one.place, found.documents)
    if standing is not None:
        raise DocumentStands(document=standing.number)
    return one.place


def _left(found: Opened, places: list[int]) -> tuple[int, ...]:
    left = tuple(place for place in places if balance_of_place(place, found.documents) is None)
    if not left:
        standing = balances_in(found.documents)
        if standing:
            raise DocumentStands(document=standing[-1].number)
        raise NothingToBill(number=found.order.number)
    return left


def _beside(found: Opened) -> tuple[int, ...]:
    open_ = balance_of_place(BESIDE_THE_SHELLS, found.documents) is None
    return (BESIDE_THE_SHELLS,) if found.order.frozen.extras and open_ else ()


def _set_off(found: Opened, wanted: Collection[int], shares: Mapping[int, int]) -> tuple[SetOff, ...]:
    """Of every document in advance the part of the places that are billed, as far as it is left."""
    return tuple(one for one in _parts(found, wanted, shares) if one.rows)


def _parts(found: Opened, wanted: Collection[int], shares: Mapping[int, int]) -> Iterator[SetOff]:
    by_number = {one.number: one for one in found.documents}
    for left in left_in_advance(found.documents):
        document = by_number[left.number]
        part = min(share_in_advance(document, wanted, shares, found.documents), gross(left.rows))
        yield set_off_of(document, part_of(part, left.rows) if part else (), found.documents)


def _billed(order: Order, wanted: Collection[int], shares: Mapping[int, int]) -> Iterator[Billed]:
    serials = {one.place: one.shell.serial or "" for one in placed(order)}
    for place in wanted:
        yield Billed(place, shares[place], serials.get(place, ""))


def _moved_line(of: Book, part: Taxable) -> Line:
    key = "line-taxed-before" if part.amount > 0 else "line-taken-out"
    return Line(printing.in_each(key, of), 1, part.amount, part.category, part.percent)


def _lines(desk: Desk, order: Order, case: CaseTotal, wanted: Collection[int]) -> tuple[Line, ...]:
    """One for shells of one line that are built alike, and for each extra, at today's rate.

    Extras go with the highest rate.
    """
    of = book_of(desk.store, order.revision.book or 0)
    deal, rate = deal_of(of, order), rate_on(desk.book.tax, desk.today)
    lines = [*_shell_lines(of, deal, order, case, wanted)]
    if BESIDE_THE_SHELLS in wanted:
        taxed = (_taxed(deal, case, one.frozen) for one in placed(order))
        lines += _extra_lines(of, order, max(taxed, key=lambda one: one.percent))
    return tuple(_at_todays(line, None if rate is None else rate.percent) for line in lines)


def _shell_lines(of: Book, deal: Deal, order: Order, case: CaseTotal, wanted: Collection[int]) -> Iterator[Line]:
    for alike in _alike(order, wanted):
        frozen, tax = alike[0].frozen, _taxed(deal, case, alike[0].frozen)
        name = _shell_line(of, frozen, [one.shell.serial for one in alike if one.shell.serial])
        yield Line(name, len(alike), _net(frozen) * len(alike), tax.category, tax.percent)


def _alike(order: Order, wanted: Collection[int]) -> Iterator[list[Placed]]:
    """Line by line those built as they were ordered, then each that a change note changed."""
    for line in order.lines:
        billed = [one for one in placed(order) if one.line is line and one.place in wanted]
        as_ordered = [one for one in billed if one.shell.changed is None]
        if as_ordered:
            yield as_ordered
        yield from ([one] for one in billed if one.shell.changed is not None)


def _extra_lines(of: Book, order: Order, tax: TaxCase) -> Iterator[Line]:
    labels = {one.id: one.label for one in of.extras}
    for one in order.frozen.extras:
        yield Line(labels[one.extra], one.quantity, one.net or 0, tax.category, tax.percent)


def _at_todays(line: Line, percent: Decimal | None) -> Line:
    return replace(line, percent=percent) if percent is not None and line.category == STANDARD_RATE else line


def _taxed(deal: Deal, case: CaseTotal, frozen: FrozenLine) -> TaxCase:
    """The tax case that the shell falls under, as quotation and change notes worked it out."""
    cases = cases_of(deal, frozen.settled)
    if isinstance(cases, TaxRefusal):
        raise LookupError(cases.why)
    return next((one for one in cases if one.kind == case.kind), cases[0])


def deal_of(of: Book, order: Order) -> Deal:
    """What its quotation was worked out by."""
    frozen, revision = order.frozen, order.revision
    day = day_of(of, revision.issued_at or order.made_at)
    return Deal(of, frozen.donor.facts(), frozen.tariff, order.place, frozen.customer.country, day)


def shell_name(of: Book, frozen: FrozenLine) -> dict[str, str]:
    """Series, body, steering and market in the book's words."""
    roles = [of.roles[role] for role in (Role.SERIES, Role.BODY, Role.STEERING, Role.MARKET) if role in of.roles]
    labels = [of.option(option).choice(frozen.settled[option]).label for option in roles if option in frozen.settled]
    return {language: " · ".join(label.get(language, "") for label in labels) for language in of.languages}


def _shell_line(of: Book, frozen: FrozenLine, serials: list[str]) -> Words:
    """With the serials where there are any."""
    names = shell_name(of, frozen)
    key, told = ("line-shell-serial", ", ".join(serials)) if serials else ("line-shell", "")
    return {language: printing.said(key, language, shell=name, serials=told) for language, name in names.items()}
