"""What the customer's yes makes: one order of a quotation, its lines, and a planned shell for each piece."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import timedelta

import pytest

from app.domain.errors import NotFound
from app.domain.floor.shell import ShellState
from app.domain.orders.order import Order
from app.domain.quotations.quotation import Reply
from app.services.once import Once
from app.services.orders import ordering
from app.services.quotations import quoting, settling
from tests.app.desk import BAYOU, CLERK, HOLLIN, NOW, S3_ROADSTER, Desk

LATER = NOW + timedelta(days=1)
S3_COUPE = {**S3_ROADSTER, "body": "coupe"}


def accept(desk: Desk, number: str, letter: str = "A", once: Once | None = None) -> None:
    version = 3 if once else desk.revision(number, letter).version
    settling.accept(desk.store, CLERK, number, letter, Reply(LATER, "Nell"), LATER, expected=version, once=once)


def the_order(desk: Desk, quotation: str) -> Order:
    return ordering.order(desk.store, CLERK, ordering.order_of(desk.store, CLERK, quotation), LATER)


def ordered(desk: Desk, *lines: tuple[dict[str, str], int]) -> Order:
    number = desk.drafted(*lines)
    desk.issue(number)
    accept(desk, number)
    return the_order(desk, number)


def test_a_yes_makes_the_order_its_lines_and_a_planned_shell_for_each_piece(desk: Desk) -> None:
    order = ordered(desk, (S3_ROADSTER, 2), (S3_COUPE, 1))
    assert (order.number, order.quotation, order.revision.letter) == ("O-2026-00001", "Q-2026-00001", "A")
    assert [[shell.place for shell in line.shells] for line in order.lines] == [[1, 2], [1]]
    assert {(shell.state, shell.serial) for shell in order.shells} == {(ShellState.PLANNED, None)}
    assert order.state is ShellState.PLANNED
    assert order.frozen.totals == desk.revision("Q-2026-00001").totals
    assert [(entry.what, entry.facts["letter"]) for entry in order.history] == [("order-made", "A")]


def test_the_yes_sent_twice_with_one_key_makes_one_order(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    for _ in range(2):
        accept(desk, number, once=Once("the-same-key", CLERK.name, "the-same-request"))
    assert [row.number for row in ordering.orders(desk.store, CLERK).rows] == ["O-2026-00001"]
    assert len(the_order(desk, number).shells) == 1


def test_a_later_yes_is_followed_by_the_same_order(desk: Desk) -> None:
    before = ordered(desk, (S3_ROADSTER, 3))
    quotation = before.quotation
    draft = quoting.next_revision(desk.store, CLERK, quotation, LATER).draft()
    two = replace(draft, lines=(replace(draft.lines[0], quantity=2),))
    quoting.save_draft(desk.store, CLERK, quotation, "B", two, LATER, expected=1)
    quoting.issue(desk.store, CLERK, quotation, "B", LATER, expected=2, replaces_yes=True)
    assert the_order(desk, quotation).revision.letter == "A"
    accept(desk, quotation, "B")
    after = the_order(desk, quotation)
    assert (after.number, after.revision.letter, len(after.shells)) == (before.number, "B", 2)
    assert [basis.letter for basis in after.bases] == ["A", "B"]
    assert not {shell.id for shell in before.shells} & {shell.id for shell in after.shells}
    assert [entry.what for entry in after.history] == ["order-made", "order-follows"]


def test_what_was_not_accepted_has_no_order(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    with pytest.raises(NotFound):
        ordering.order_of(desk.store, CLERK, number)


def test_of_another_dealer_s_order_there_is_no_trace(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=HOLLIN)
    desk.issue(number, who=HOLLIN)
    accept(desk, number)
    order = the_order(desk, number)
    assert ordering.order(desk.store, HOLLIN, order.number, LATER).number == order.number
    assert [row.number for row in ordering.orders(desk.store, HOLLIN).rows] == [order.number]
    assert ordering.orders(desk.store, BAYOU).rows == ()
    with pytest.raises(NotFound):
        ordering.order(desk.store, BAYOU, order.number, LATER)


@pytest.mark.parametrize("text", ["o-2026-00001", "q202600001", "thornbury"])
def test_an_order_is_found_by_its_numbers_and_its_customer(desk: Desk, text: str) -> None:
    order = ordered(desk, (S3_ROADSTER, 1))
    assert [row.number for row in ordering.orders(desk.store, CLERK, text=text).rows] == [order.number]
    assert ordering.orders(desk.store, CLERK, text="nobody of that name").rows == ()


@pytest.mark.parametrize("table", ["orders", "order_bases", "order_lines", "shells"])
def test_nothing_of_an_order_goes_away(desk: Desk, table: str) -> None:
    ordered(desk, (S3_ROADSTER, 1))
    with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
        db.execute(f"DELETE FROM {table}")


def test_an_order_follows_nothing_that_was_not_accepted(desk: Desk) -> None:
    order = ordered(desk, (S3_ROADSTER, 1))
    other = desk.drafted((S3_ROADSTER, 1))
    issued = desk.issue(other)
    with pytest.raises(sqlite3.IntegrityError, match="accepted revision of its own"), desk.store.writing() as db:
        row = [order.id, issued.id, "2026-11-03", "imogen"]
        db.execute("INSERT INTO order_bases (order_id, revision, at, by) VALUES (?, ?, ?, ?)", row)
