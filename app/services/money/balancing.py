"""The balance of an order, billed shell by shell or for all that is left, with what was billed in advance set off.

Each shell has its share of what was paid in advance, whichever is billed first. A bill taxes its own lines at the rate
of its day, so bills of single shells may differ from one bill of them all by what a penny rounds.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from decimal import Decimal

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DocumentStands, NotFound, NothingToBill, ShellStands
from app.domain.floor.shell import Barred, ShellState
from app.domain.money.crediting import balance_of_place, balances_in, parts_in_advance
from app.domain.money.invoice import BESIDE_THE_SHELLS, Billed, Exchange, Kind, Line, SetOff
from app.domain.orders.order import Order
from app.domain.quotations.quotation import FrozenLine
from app.services.answering.pricing import Deal
from app.services.books.publishing import book as book_of
from app.services.money import printing
from app.services.money.accounts import Opened, opened
from app.services.money.making_out import Desk, content_of, keep
from app.services.money.sharing import (
    Placed,
    agreed_net,
    cancelled_since,
    deal_of,
    decided_case,
    placed,
    shares_of,
    taxed_as,
)
from app.services.money.stating import set_off_of, state
from app.services.once import Once, perform
from app.store.db import Store
from rules.model import Book, Role, Words
from rules.money.settlement import balance_of, less, part_of
from rules.money.tax import STANDARD_RATE, TaxCase, rate_on
from rules.money.totals import CaseTotal, Taxable

#: Shells that are built no further: nobody is billed for them.
_GONE = (ShellState.CANCELLED, ShellState.REJECTED)


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
        found = opened(store, db, actor, number, now)
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
    for document, left, part in parts_in_advance(wanted, shares, cancelled_since(found.order), found.documents):
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
        taxed = (taxed_as(deal, case, one.frozen) for one in placed(order))
        lines += _extra_lines(of, order, max(taxed, key=lambda one: one.percent))
    return tuple(_at_todays(line, None if rate is None else rate.percent) for line in lines)


def _shell_lines(of: Book, deal: Deal, order: Order, case: CaseTotal, wanted: Collection[int]) -> Iterator[Line]:
    for alike in _alike(order, wanted):
        frozen, tax = alike[0].frozen, taxed_as(deal, case, alike[0].frozen)
        name = _shell_line(of, frozen, [one.shell.serial for one in alike if one.shell.serial])
        yield Line(name, len(alike), agreed_net(frozen) * len(alike), tax.category, tax.percent)


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
