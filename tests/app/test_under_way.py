"""What still has to be built: what is read of twenty years of orders, so it has to hold exactly those."""

from __future__ import annotations

from datetime import timedelta

from app import calendar
from app.domain.floor.shell import ShellState
from app.services.books import consequences
from app.services.floor import building, overseeing
from app.services.orders import ordering
from app.store.migrations import m0034_under_way
from rules.model import ToolCondition
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_building import LEAD, C, X, shells, sign, workshop
from tests.app.test_confirming import LATER, accepted, confirmed_order

__all__ = ["workshop"]

STAGES = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap")


def build(desk: Desk, shell: int) -> None:
    """From its release to where it is ready."""
    building.release(desk.store, LEAD, shell, LATER)
    for stage in STAGES:
        sign(desk, shell, stage)
    sign(desk, shell, "inspection", "oona")
    sign(desk, shell, "preparation")


def touched(desk: Desk) -> list[int]:
    """How many shells each accepted quotation has that the deck's loss touches."""
    found = consequences.consequences(desk.store, "roadster-deck", ToolCondition.DOWN, LATER)
    return [one.shells for one in found.accepted]


def kept(desk: Desk) -> list[tuple[int, int]]:
    with desk.store.reading() as db:
        return [tuple(row) for row in db.execute("SELECT shell, built FROM shells_under_way ORDER BY shell")]


def test_an_order_of_which_every_shell_is_built_is_touched_by_no_tool_any_more(workshop: Desk) -> None:
    first, second = shells(workshop, confirmed_order(workshop, count=2))
    assert touched(workshop) == [2]
    build(workshop, first)
    assert touched(workshop) == [2]
    build(workshop, second)
    assert touched(workshop) == []


def test_an_accepted_quotation_is_touched_long_before_its_order_is_confirmed(workshop: Desk) -> None:
    accepted(workshop)
    assert touched(workshop) == [1]


def test_a_shell_is_under_way_until_it_is_cancelled_or_another_takes_its_place(workshop: Desk) -> None:
    done, torn, dropped, planned = shells(workshop, confirmed_order(workshop, count=4))
    build(workshop, done)
    building.release(workshop.store, LEAD, torn, LATER)
    building.say(workshop.store, LEAD, torn, X, "The sill is torn.", LATER)
    assert kept(workshop) == [(done, 1), (torn, 0), (dropped, 0), (planned, 0)]
    building.say(workshop.store, MANAGER, dropped, C, "One fewer is wanted.", LATER)
    new = building.replace(workshop.store, MANAGER, torn, calendar.around, LATER)
    assert kept(workshop) == [(done, 1), (planned, 0), (new, 0)]


def test_an_order_of_which_nothing_is_to_come_is_on_the_floor_no_more(workshop: Desk) -> None:
    first, second = shells(workshop, confirmed_order(workshop, count=2))
    building.say(workshop.store, MANAGER, first, C, "One fewer is wanted.", LATER)
    assert [one.shell.id for one in overseeing.floor(workshop.store, LATER)] == [second, first]
    building.say(workshop.store, MANAGER, second, C, "None is wanted.", LATER)
    assert overseeing.floor(workshop.store, LATER) == ()


def test_what_is_under_way_is_as_if_it_were_written_anew(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=4)
    done, torn, dropped, begun = shells(workshop, order)
    build(workshop, done)
    for shell in (torn, begun):
        building.release(workshop.store, LEAD, shell, LATER)
    sign(workshop, begun, "sub-assembly")
    building.say(workshop.store, LEAD, torn, X, "The sill is torn.", LATER)
    building.replace(workshop.store, MANAGER, torn, calendar.around, LATER)
    building.say(workshop.store, MANAGER, dropped, C, "One fewer is wanted.", LATER)
    accepted(workshop)
    before = kept(workshop)
    with workshop.store.writing() as db:
        m0034_under_way.let_go(db.conn)
        db.execute("DELETE FROM shells_under_way")
        m0034_under_way.keep(db.conn)
    assert kept(workshop) == before
    assert len(before) == 4
    states = {shell.id: shell.state for shell in ordering.order(workshop.store, CLERK, order, LATER).shells}
    assert {shell for shell, built in before if built} == {
        i for i, state in states.items() if state is ShellState.READY
    }


def test_a_draft_that_nobody_has_changed_for_ninety_days_is_counted_and_not_looked_through(desk: Desk) -> None:
    desk.drafted((S3_ROADSTER, 1))

    def found(days: int) -> tuple[int, int]:
        told = consequences.consequences(desk.store, "roadster-deck", ToolCondition.DOWN, LATER + timedelta(days=days))
        return len(told.drafts), told.stale

    assert found(0) == (1, 0)
    assert found(91) == (0, 1)


def test_a_guard_of_what_went_out_looks_at_the_one_revision_that_is_written_to(desk: Desk) -> None:
    """Gathered first, all that ever went out would be read whenever a line of a draft is saved."""
    with desk.store.reading() as db:
        guards = [row[0] for row in db.execute("SELECT sql FROM sqlite_master WHERE type = 'trigger'")]
    looking = [guard for guard in guards if "WHERE id = NEW.revision AND issued_at IS NOT NULL" in guard]
    assert len(looking) == 8
    assert not [guard for guard in guards if "revision IN (SELECT id FROM revisions WHERE issued_at" in guard]
