# ruff: noqa: F811 - a fixture of a neighbour
"""Seconds: a rejected shell that the firm sells as it is, whether or not another was begun in its place."""

from __future__ import annotations

from importlib import import_module

import pytest

from app import calendar
from app.domain.errors import StockUnready
from app.domain.floor.shell import ShellState
from app.domain.stock import Source, StockState
from app.services.floor import building, kitting
from app.services.orders import ordering
from app.services.stock import seconds, stocking
from app.store import stock_claims
from app.store.migrations import modules
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_building import INSPECTOR, LEAD, X, shells, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirm, confirmed_order, through
from tests.app.test_stock_shells import of, ordered, released, take

WHY = "Concession 4: the sill is patched, sound, and seen by whoever buys it."


def rejected(desk: Desk) -> tuple[str, int]:
    order = confirmed_order(desk)
    (shell,) = shells(desk, order)
    building.release(desk.store, LEAD, shell, LATER)
    building.say(desk.store, INSPECTOR, shell, X, "The sill is torn.", LATER)
    return order, shell


@pytest.mark.parametrize("replaced_first", [True, False])
def test_a_rejected_shell_is_sold_as_a_second_and_the_order_builds_another(
    workshop: Desk, replaced_first: bool
) -> None:
    order, shell = rejected(workshop)
    if replaced_first:
        building.replace(workshop.store, MANAGER, shell, calendar.around, LATER)
    key = seconds.take_in(workshop.store, MANAGER, shell, WHY, calendar.around, LATER)
    second = of(workshop, key)
    assert (second.stock.source, second.stock.came_from, second.stock.why) == (Source.SECOND, order, WHY)
    assert (second.name, second.state(LATER), second.unready()) == ("S-2026-00001", StockState.FREE, None)
    with pytest.raises(StockUnready) as twice:
        seconds.take_in(workshop.store, MANAGER, shell, WHY, calendar.around, LATER)
    assert twice.value.facts["why"] == "stock-no-second"

    # The order has its own new one, and who had the rejected one before it is still told.
    (new,) = ordering.order(workshop.store, CLERK, order, LATER).shells
    assert (new.serial, new.state, [one.serial for one in new.replaced]) == (None, ShellState.PLANNED, ["S-2026-00001"])
    kitting.all_present(workshop.store, LEAD, new.id, LATER)
    building.release(workshop.store, LEAD, new.id, LATER)
    assert ordering.order(workshop.store, CLERK, order, LATER).shells[0].serial == "S-2026-00002"


def test_a_shell_of_stock_that_was_rejected_under_an_order_is_free_again_only_as_a_second(workshop: Desk) -> None:
    made, number = released(workshop, S3_ROADSTER, "sub-assembly"), workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    order = ordered(workshop, number)
    through(workshop, order)
    confirm(workshop, order)
    building.say(workshop.store, INSPECTOR, made.shell, X, "The jig slipped.", LATER)
    building.replace(workshop.store, MANAGER, made.shell, calendar.around, LATER)
    assert stocking.stock(workshop.store).shells == ()
    key = seconds.take_in(workshop.store, MANAGER, made.shell, WHY, calendar.around, LATER)
    assert [one.stock.id for one, _ in stocking.stock(workshop.store).shells] == [key]


def test_a_folder_of_before_has_no_rejected_shell_of_stock_left_as_free(workshop: Desk) -> None:
    made, number = released(workshop, S3_ROADSTER, "sub-assembly"), workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    through(workshop, ordered(workshop, number))
    with workshop.store.writing() as db:
        stock_claims.end_allocation(db, made.id, "replaced", LATER)
    assert [one.stock.id for one, _ in stocking.stock(workshop.store).shells] == [made.id]
    with workshop.store.writing() as db:
        import_module(next(f"app.store.migrations.{name}" for name in modules() if name.startswith("m0037"))).up(db)
    assert stocking.stock(workshop.store).shells == ()
