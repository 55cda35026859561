"""A better order of the weeks ahead: proposed with all that moves, taken only as shown, every last day standing."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from app import calendar
from app.domain.asking.people import Person, Role
from app.domain.errors import PlanMoved
from app.services.letters.writing_moved import letter_of
from app.services.planning import promising
from app.services.planning.bettering import BetterWeeks, Stays, better_weeks, take_better_weeks
from rules.schedule.promise import Promise
from tests.app.desk import CLERK, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE
from tests.app.test_promising import TODAY, clear, kept, paid, shells

LEAD = Person("tomasz", "Tomasz Brandl", Role.LEAD)


@pytest.fixture
def by_turns(desk: Desk) -> str:
    """One order of a roadster, a coupé, a roadster and a coupé, with slots in that order."""
    number = paid(desk, (S3_ROADSTER, 1), (S3_COUPE, 1), (S3_ROADSTER, 1), (S3_COUPE, 1))
    clear(desk, number)
    return number


def proposed(desk: Desk, weeks: int = 4, who: Person = LEAD) -> BetterWeeks:
    return better_weeks(desk.store, who, weeks, calendar.around, LATER)


def take(desk: Desk, token: str, weeks: int = 4) -> None:
    take_better_weeks(desk.store, CLERK, weeks, token, calendar.around, LATER)


def all_kept(desk: Desk, number: str) -> list[Promise]:
    return [kept(desk, number, place) for place in (1, 2, 3, 4)]


def test_shells_by_turns_are_proposed_in_two_groups_and_nothing_has_moved(desk: Desk, by_turns: str) -> None:
    before, found = all_kept(desk, by_turns), proposed(desk)
    assert found.found is not None
    assert found.found.best is not None
    assert (found.shells, found.stays, found.found.whole) == (4, (), True)
    assert (found.found.now.changeovers, found.found.best.changeovers) == (3, 1)
    assert [(move.seat.place, move.before.slot) for move in found.proposal.moves] == [
        (3, before[2].slot),
        (2, before[1].slot),
    ]
    assert all_kept(desk, by_turns) == before


def test_what_was_shown_is_done_with_its_token_and_no_last_day_moves_back(desk: Desk, by_turns: str) -> None:
    before, found = all_kept(desk, by_turns), proposed(desk)
    take(desk, found.proposal.token)
    after = all_kept(desk, by_turns)
    assert [one.slot for one in after] == [before[n].slot for n in (0, 2, 1, 3)]
    assert all(one.ready_by <= was.ready_by for one, was in zip(after, before, strict=True))
    assert after[1].ready > before[1].ready
    assert [shell.adrift for shell in shells(desk, by_turns)] == [False] * 4
    again = proposed(desk)
    assert again.found is not None
    assert again.proposal.moves == ()
    assert again.found.now.late > 0, "what is used up of a promise stays used up"


def test_each_customer_whose_days_move_has_a_letter(desk: Desk, by_turns: str) -> None:
    moves = proposed(desk).proposal.moves
    letters = [letter_of(desk.store, CLERK, move, LATER) for move in moves]
    assert all(letter is not None and by_turns in letter.text for letter in letters)


def test_what_moved_meanwhile_is_not_done(desk: Desk, by_turns: str) -> None:
    token = proposed(desk).proposal.token
    clear(desk, paid(desk, (S3_ROADSTER, 1)))
    slot = kept(desk, by_turns, 4).slot + timedelta(days=7)
    move = promising.propose(desk.store, CLERK, by_turns, 4, slot, False, calendar.around, LATER)
    promising.move(desk.store, CLERK, by_turns, 4, slot, False, move.token, calendar.around, LATER)
    before = all_kept(desk, by_turns)
    with pytest.raises(PlanMoved):
        take(desk, token)
    assert all_kept(desk, by_turns) == before


def test_nothing_is_taken_where_nothing_was_proposed(desk: Desk) -> None:
    found = proposed(desk)
    assert (found.shells, found.proposal.moves) == (0, ())
    with pytest.raises(PlanMoved):
        take(desk, found.proposal.token)


def test_a_shell_that_cannot_keep_its_date_stays_and_is_named(desk: Desk, by_turns: str) -> None:
    day = TODAY + timedelta(days=45)
    promising.say_gate(desk.store, CLERK, by_turns, 0, ("specification", ""), day, calendar.around, LATER)
    found = proposed(desk)
    assert [(seat.place, why) for seat, why in found.stays] == [(place, Stays.LATE) for place in (1, 2, 3, 4)]
    assert found.proposal.moves == ()


def test_a_promise_whose_width_is_partly_used_up_still_holds(desk: Desk, by_turns: str) -> None:
    take(desk, proposed(desk).proposal.token)
    shell = shells(desk, by_turns)[1]
    assert shell.now is not None
    assert shell.kept is not None
    assert replace(shell.now, bindings=()).ready_by > shell.kept.promise.ready_by
    assert not shell.adrift
