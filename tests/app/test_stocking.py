"""Building for stock: it fills what is free, within a cap, and gives way to whoever is promised a day."""

from __future__ import annotations

from datetime import date

import pytest

from app import calendar
from app.domain.errors import NotFound, StockBegun, StockFull, StockUnfit
from app.domain.stock import StockAct, StockShell
from app.services.books import tools
from app.services.books.publishing import current_book
from app.services.planning import promising
from app.services.planning.dating import shop_of
from app.services.stock import stocking
from rules.model import ToolCondition
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_issuing import SMALL_WINDOW, T2_05900
from tests.app.test_ordering import LATER
from tests.app.test_promising import TODAY, clear, kept, paid

#: Case 8: N1 and N3 forbid it.
S1_NARROW = {**S3_ROADSTER, "series": "s1", "suspension": "four-link", "tunnel": "narrow"}


def for_stock(desk: Desk, chosen: dict[str, str] = S3_ROADSTER, cap: int | None = 9) -> StockShell:
    if cap is not None:
        stocking.set_cap(desk.store, MANAGER, cap, LATER)
    return stocking.make(desk.store, CLERK, desk.drafted((chosen, 1)), "A", 1, calendar.around, LATER)


def now_of(desk: Desk, shell: StockShell) -> StockShell:
    return next(one.stock for one, _ in stocking.stock(desk.store).shells if one.stock.id == shell.id)


def test_it_takes_the_first_slot_that_is_free_beside_the_customers(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    first, second = for_stock(desk), for_stock(desk)
    assert kept(desk, number).slot == date(2026, 11, 10)
    assert [one.plan.slot for one in (first, second)] == [date(2026, 11, 11), date(2026, 11, 12)]


def test_a_deposit_has_the_slot_that_it_would_have_without_any_stock_and_the_stock_goes_on(desk: Desk) -> None:
    shell = for_stock(desk)
    assert shell.plan.slot == date(2026, 11, 10)
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    assert kept(desk, number).slot == date(2026, 11, 10)
    after = now_of(desk, shell)
    assert (after.act, after.plan.slot, after.because) == (StockAct.MOVED, date(2026, 11, 11), number)


def test_stock_that_is_not_in_the_way_stays_even_where_it_could_come_sooner(desk: Desk) -> None:
    first, second = for_stock(desk), for_stock(desk)
    assert [one.plan.slot for one in (first, second)] == [date(2026, 11, 10), date(2026, 11, 11)]
    stocking.withdraw(desk.store, CLERK, first.id, LATER)
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    assert kept(desk, number).slot == date(2026, 11, 10)
    after = now_of(desk, second)
    assert (after.act, after.plan.slot) == (StockAct.TAKEN, date(2026, 11, 11))


def test_only_stock_that_is_in_the_workshop_is_planned_around(desk: Desk) -> None:
    slots = [for_stock(desk).plan.slot for _ in range(2)]
    book = current_book(desk.store, LATER)
    with desk.store.reading() as db:
        full = [shop_of(db, book, calendar.around, day) for day in (TODAY, *slots)]
    assert [[day for day, _ in one.loads[one.slot_stage].queue] if one.loads else [] for one in full] == [
        [],
        slots[:1],
        slots,
    ]


def test_what_would_move_lists_the_stock_apart_and_moves_nothing(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    shell = for_stock(desk)
    day = shell.plan.slot
    shown = promising.propose(desk.store, CLERK, number, 1, day, False, calendar.around, LATER)
    assert [move.seat.number for move in shown.moves] == [number]
    assert [(one.shell.number, one.after.slot) for one in shown.stock] == [(shell.number, date(2026, 11, 10))]
    assert now_of(desk, shell).plan.slot == day
    promising.move(desk.store, CLERK, number, 1, day, False, shown.token, calendar.around, LATER)
    assert (kept(desk, number).slot, now_of(desk, shell).plan.slot) == (day, date(2026, 11, 10))


def test_stock_in_the_workshop_stays_and_is_planned_around(desk: Desk) -> None:
    shell = for_stock(desk)
    slot = shell.plan.slot
    then = LATER + (slot - TODAY)
    number = paid(desk, (S3_ROADSTER, 1))
    promising.say_gate(desk.store, CLERK, number, 0, ("deposit", ""), slot, calendar.around, then)
    after = now_of(desk, shell)
    assert (after.plan.slot, after.act) == (slot, StockAct.TAKEN)
    with pytest.raises(StockBegun):
        stocking.withdraw(desk.store, CLERK, shell.id, then)


def test_beyond_the_cap_nothing_is_made_and_without_one_nothing_at_all(desk: Desk) -> None:
    with pytest.raises(StockFull) as none:
        for_stock(desk, cap=None)
    assert none.value.facts == {"count": 0, "most": 0}
    first = for_stock(desk, cap=1)
    with pytest.raises(StockFull) as full:
        for_stock(desk, cap=1)
    assert full.value.facts == {"count": 1, "most": 1}
    stocking.withdraw(desk.store, CLERK, first.id, LATER)
    assert for_stock(desk, cap=1).plan.slot == first.plan.slot
    with pytest.raises(NotFound):
        stocking.withdraw(desk.store, CLERK, first.id, LATER)


def test_what_can_t_be_built_is_not_settled_or_waits_for_somebody_is_no_stock(desk: Desk) -> None:
    stocking.set_cap(desk.store, MANAGER, 9, LATER)
    for quoted, why in (
        (desk.drafted((SMALL_WINDOW, 1), wish=desk.wish(donor=T2_05900)), "stock-waits"),
        (desk.drafted((S1_NARROW, 1)), "stock-cant"),
    ):
        with pytest.raises(StockUnfit) as told:
            stocking.make(desk.store, CLERK, quoted, "A", 1, calendar.around, LATER)
        assert told.value.facts == {"why": why}
    number = tools.tool_states(desk.store).number
    tools.set_tool(desk.store, MANAGER, "roadster-deck", ToolCondition.DOWN, LATER, note="Worn.", expected=number)
    with pytest.raises(StockUnfit):
        for_stock(desk)
