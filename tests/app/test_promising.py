"""Slots of orders: taken by a deposit, kept exclusively, moved only as it was shown. Case 30d is among them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from threading import Barrier, Thread

import pytest

from app import calendar
from app.domain.errors import BadInput, DepositShort, PlanMoved, SlotBarred
from app.domain.money.payment import Direction, Entry, Means
from app.domain.planning.slots import Barred
from app.services.letters.writing_moved import letter_of
from app.services.money import receiving
from app.services.planning import promising
from app.store.db import Store
from rules.schedule.promise import Promise
from tests.app.desk import CLERK, NOW, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE, ordered

TODAY = LATER.date()
DEPOSIT = ("deposit", "")


def paid(desk: Desk, *lines: tuple[dict[str, str], int]) -> str:
    order = ordered(desk, *lines)
    case = order.frozen.totals.cases[0]
    means = next(iter(Means))
    receiving.record(
        desk.store, CLERK, order.number, Entry(Direction.RECEIVED, case.deposit, "GBP", TODAY, means), LATER
    )
    return order.number


def clear(desk: Desk, number: str, day: date = TODAY) -> None:
    promising.say_gate(desk.store, CLERK, number, 0, DEPOSIT, day, calendar.around, LATER)


def shells(desk: Desk, number: str) -> tuple[promising.Shown, ...]:
    return promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).shells


def kept(desk: Desk, number: str, place: int = 1) -> Promise:
    found = shells(desk, number)[place - 1].kept
    assert found is not None
    return found.promise


def test_an_order_without_its_deposit_reserves_nothing(desk: Desk) -> None:
    first, second = ordered(desk, (S3_ROADSTER, 1)).number, ordered(desk, (S3_ROADSTER, 1)).number
    (one,), (two,) = shells(desk, first), shells(desk, second)
    assert (one.kept, two.kept) == (None, None)
    assert one.now is not None
    assert two.now is not None
    assert one.now.slot == two.now.slot == date(2026, 11, 10)


def test_a_deposit_that_is_not_met_takes_no_slot(desk: Desk) -> None:
    number = ordered(desk, (S3_ROADSTER, 1)).number
    with pytest.raises(DepositShort):
        clear(desk, number)
    assert shells(desk, number)[0].kept is None


def test_an_expected_deposit_is_dated_and_binds(desk: Desk) -> None:
    number = ordered(desk, (S3_ROADSTER, 1)).number
    clear(desk, number, date(2026, 12, 1))
    (shell,) = shells(desk, number)
    assert shell.kept is None
    assert shell.now is not None
    assert shell.now.slot == date(2026, 12, 8)
    assert shell.now.bindings[0].what == "deposit"


def test_a_deposit_takes_a_slot_for_each_shell(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 2), (S3_COUPE, 1))
    clear(desk, number)
    slots = [kept(desk, number, place).slot for place in (1, 2, 3)]
    assert slots[:2] == [date(2026, 11, 10), date(2026, 11, 11)]
    assert len(set(slots)) == 3
    assert [
        entry.what for entry in promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).order.history
    ][-4:] == ["gate-deposit", "slot-taken", "slot-taken", "slot-taken"]


def test_case_30d_two_deposits_at_once_the_first_committed_has_the_slot(desk: Desk) -> None:
    numbers = [paid(desk, (S3_ROADSTER, 1)) for _ in range(2)]
    shown = {number: shells(desk, number)[0].now for number in numbers}
    together, store = Barrier(2), Store(desk.store.path)

    def press(number: str, through: Store) -> None:
        together.wait()
        promising.say_gate(through, CLERK, number, 0, DEPOSIT, TODAY, calendar.around, LATER)
        through.close()

    threads = [Thread(target=press, args=pair) for pair in zip(numbers, (desk.store, store), strict=True)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    slots = {number: kept(desk, number).slot for number in numbers}
    assert sorted(slots.values()) == [date(2026, 11, 10), date(2026, 11, 11)]
    loser = max(numbers, key=lambda number: slots[number])
    was = shown[loser]
    assert was is not None
    assert was.ready < kept(desk, loser).ready


def test_a_swap_lists_both_promises_and_moves_them_only_as_listed(desk: Desk) -> None:
    first, second = paid(desk, (S3_ROADSTER, 1)), paid(desk, (S3_ROADSTER, 1))
    for number in (first, second):
        clear(desk, number)
    before = {number: kept(desk, number) for number in (first, second)}
    to = before[second].slot
    proposal = promising.propose(desk.store, CLERK, first, 1, to, True, calendar.around, LATER)
    assert [(move.seat.number, move.before, move.after and move.after.slot) for move in proposal.moves] == [
        (first, before[first], to),
        (second, before[second], before[first].slot),
    ]
    assert kept(desk, first) == before[first]
    with pytest.raises(PlanMoved):
        promising.move(desk.store, CLERK, first, 1, to, True, "another", calendar.around, LATER)
    promising.move(desk.store, CLERK, first, 1, to, True, proposal.token, calendar.around, LATER)
    assert (kept(desk, first).slot, kept(desk, second).slot) == (to, before[first].slot)


def test_an_insertion_sends_the_other_to_the_next_free_slot(desk: Desk) -> None:
    first, second = paid(desk, (S3_ROADSTER, 1)), paid(desk, (S3_ROADSTER, 1))
    for number in (first, second):
        clear(desk, number)
    at = kept(desk, first).slot
    proposal = promising.propose(desk.store, CLERK, second, 1, at, False, calendar.around, LATER)
    assert [move.after and move.after.slot for move in proposal.moves] == [at, date(2026, 11, 11)]


def test_a_slot_before_the_gates_are_through_is_barred_with_the_first_day(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    for day, why in (
        (date(2026, 11, 9), Barred.GATE),
        (date(2026, 11, 2), Barred.PAST),
        (date(2026, 11, 14), Barred.CLOSED),
    ):
        proposal = promising.propose(desk.store, CLERK, number, 1, day, False, calendar.around, LATER)
        assert (proposal.barred, proposal.moves, proposal.earliest) == (why, (), date(2026, 11, 10))
    with pytest.raises(SlotBarred):
        promising.move(desk.store, CLERK, number, 1, date(2026, 11, 9), False, "", calendar.around, LATER)


def test_a_week_at_its_line_takes_no_more_by_hand_either(desk: Desk) -> None:
    numbers = [paid(desk, (S3_ROADSTER, 1)) for _ in range(4)]
    for number in numbers:
        clear(desk, number)
    assert [kept(desk, number).slot for number in numbers[:3]] == [date(2026, 11, day) for day in (10, 11, 12)]
    proposal = promising.propose(desk.store, CLERK, numbers[3], 1, date(2026, 11, 13), False, calendar.around, LATER)
    assert (proposal.barred, proposal.earliest) == (Barred.FULL, kept(desk, numbers[3]).slot)


def test_a_slot_given_up_is_free_and_the_letter_says_so(desk: Desk) -> None:
    number, next_one = paid(desk, (S3_ROADSTER, 1)), paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    slot = kept(desk, number).slot
    proposal = promising.propose(desk.store, CLERK, number, 1, None, False, calendar.around, LATER)
    letter = letter_of(desk.store, CLERK, proposal.moves[0], LATER)
    assert letter is not None
    assert "8 December 2026" not in letter.text
    assert "9 December 2026" in letter.text
    promising.move(desk.store, CLERK, number, 1, None, False, proposal.token, calendar.around, LATER)
    clear(desk, next_one)
    assert kept(desk, next_one).slot == slot


def test_a_moved_date_makes_a_letter_in_the_customer_s_language(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    proposal = promising.propose(desk.store, CLERK, number, 1, date(2026, 11, 17), False, calendar.around, LATER)
    (move,) = proposal.moves
    letter = letter_of(desk.store, CLERK, move, LATER)
    assert letter is not None
    assert letter.language == "en"
    assert "between 9 December 2026 and 23 December 2026" in letter.text
    assert "between 16 December 2026 and 4 January 2027" in letter.text


@pytest.mark.parametrize(
    ("language", "country", "day"),
    [("en", "US", "December 16, 2026"), ("de", "DE", "16. Dezember 2026"), ("en", "GB", "16 December 2026")],
)
def test_the_letter_writes_days_as_the_customer_s_country_does(
    desk: Desk, language: str, country: str, day: str
) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    proposal = promising.propose(desk.store, CLERK, number, 1, date(2026, 11, 17), False, calendar.around, LATER)
    (move,) = proposal.moves
    letter = letter_of(
        desk.store, CLERK, replace(move, customer=replace(move.customer, language=language, country=country)), LATER
    )
    assert letter is not None
    assert letter.language == language
    assert day in letter.text


def test_a_gate_that_slips_past_the_slot_leaves_the_promise_standing_and_says_that_it_no_longer_holds(
    desk: Desk,
) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    before = kept(desk, number)
    day = TODAY + timedelta(days=21)
    promising.say_gate(desk.store, CLERK, number, 0, ("specification", ""), day, calendar.around, LATER)
    (shell,) = shells(desk, number)
    assert kept(desk, number) == before
    assert shell.adrift
    assert shell.now is not None
    assert shell.now.ready > before.ready


def test_nobody_signs_a_specification_before_it_was_issued(desk: Desk) -> None:
    """A year mistyped; the day of issue itself will do."""
    number, key = ordered(desk, (S3_ROADSTER, 1)).number, ("specification", "")
    with pytest.raises(BadInput) as refused:
        promising.say_gate(desk.store, CLERK, number, 0, key, date(2025, 11, 3), calendar.around, LATER)
    (fault,) = refused.value.faults
    assert (fault.path, fault.code, fault.facts) == ("day", "signed-before-issue", {"day": NOW.date()})
    promising.say_gate(desk.store, CLERK, number, 0, key, NOW.date(), calendar.around, LATER)
    assert shells(desk, number)[0].said[key].day == NOW.date()


def test_a_gate_that_no_shell_has_is_refused(desk: Desk) -> None:
    number = ordered(desk, (S3_ROADSTER, 1)).number
    for place, key in ((1, DEPOSIT), (1, ("parts", "P1")), (2, ("parts", "P1")), (0, ("tools", ""))):
        with pytest.raises(BadInput):
            promising.say_gate(desk.store, CLERK, number, place, key, TODAY, calendar.around, LATER)
