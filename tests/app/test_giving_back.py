"""Slots that come free: with a deposit that no longer stands, asked first, and with a yes to fewer shells."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app import calendar
from app.domain.errors import SlotsFollow
from app.domain.money.payment import Direction, Entry, Means
from app.domain.planning.slots import places_kept
from app.domain.quotations.quotation import DraftLine
from app.services.money import accounts, receiving
from app.services.planning import giving_back, promising
from app.services.quotations import quoting
from tests.app.desk import CLERK, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE, accept
from tests.app.test_promising import TODAY, clear, kept, paid, shells


def mistaken(desk: Desk, number: str, token: str = "") -> None:
    payment = accounts.open_order(desk.store, CLERK, number, LATER).payments[0].id
    receiving.was_mistaken(desk.store, CLERK, number, payment, "Another's money.", LATER, gives_back=token)


def test_a_payment_that_was_a_mistake_frees_the_slot_only_after_it_was_shown(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    slot = kept(desk, number).slot
    with pytest.raises(SlotsFollow):
        mistaken(desk, number)
    assert accounts.open_order(desk.store, CLERK, number, LATER).account.deposit_met
    assert kept(desk, number).slot == slot
    shown = giving_back.what_falls(desk.store, CLERK, number, LATER)
    assert [(move.before.slot, move.after) for move in shown.moves] == [(slot, None)]
    mistaken(desk, number, shown.token)
    (shell,) = shells(desk, number)
    assert shell.kept is None
    deposit = next(due.gate for due in shell.due if due.gate.name == "deposit")
    assert not deposit.opened
    another = paid(desk, (S3_ROADSTER, 1))
    clear(desk, another)
    assert kept(desk, another).slot == slot


def test_money_paid_back_frees_the_slot_too_and_another_gate_takes_none(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    back = Entry(Direction.PAID_BACK, 1_00, "GBP", TODAY, next(iter(Means)))
    with pytest.raises(SlotsFollow):
        receiving.record(desk.store, CLERK, number, back, LATER)
    token = giving_back.what_falls(desk.store, CLERK, number, LATER).token
    receiving.record(desk.store, CLERK, number, back, LATER, gives_back=token)
    promising.say_gate(desk.store, CLERK, number, 0, ("specification", ""), TODAY, calendar.around, LATER)
    assert shells(desk, number)[0].kept is None


def test_a_payment_beyond_the_deposit_is_undone_without_a_question(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    more = Entry(Direction.RECEIVED, 5_00, "GBP", TODAY, next(iter(Means)))
    receiving.record(desk.store, CLERK, number, more, LATER)
    payment = accounts.open_order(desk.store, CLERK, number, LATER).payments[-1].id
    receiving.was_mistaken(desk.store, CLERK, number, payment, "Twice.", LATER)
    assert kept(desk, number).slot == date(2026, 11, 10)


def revise(desk: Desk, number: str, *lines: tuple[dict[str, str], int]) -> None:
    """The next revision of the order's quotation with these lines, issued and accepted."""
    quotation = promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).order.quotation
    draft = quoting.next_revision(desk.store, CLERK, quotation, LATER).draft()
    wanted = tuple(
        DraftLine(
            next(one.specification for one in draft.lines if one.specification.choices()["body"] == made["body"]), many
        )
        for made, many in lines
    )
    quoting.save_draft(desk.store, CLERK, quotation, "B", replace(draft, lines=wanted), LATER, expected=1)
    quoting.issue(desk.store, CLERK, quotation, "B", LATER, expected=2, replaces_yes=True)
    accept(desk, quotation, "B")


def test_a_yes_to_fewer_shells_gives_back_their_slots_and_the_others_keep_theirs(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 3), (S3_COUPE, 1))
    clear(desk, number)
    slots = [kept(desk, number, place).slot for place in (1, 2, 3, 4)]
    revise(desk, number, (S3_ROADSTER, 2), (S3_COUPE, 1))
    assert [kept(desk, number, place).slot for place in (1, 2, 3)] == [slots[0], slots[1], slots[3]]
    another = paid(desk, (S3_ROADSTER, 1))
    clear(desk, another)
    assert kept(desk, another).slot == slots[2]


@pytest.mark.parametrize(
    ("before", "after", "kept_by"),
    [
        ("aab", "ab", {1: 1, 2: 3}),  # one of two alike falls away
        ("aab", "aab", {1: 1, 2: 2, 3: 3}),
        ("ab", "ba", {1: 2, 2: 1}),  # each goes with its shell
        ("ab", "ac", {1: 1, 2: 2}),  # changed, and keeps its slot
        ("a", "ab", {1: 1}),  # the new one has none
    ],
)
def test_each_shell_keeps_its_own_slot(before: str, after: str, kept_by: dict[int, int]) -> None:
    assert places_kept(before, after) == kept_by
