"""A safety fault stops every shell that it may be in, wherever that is, until it is lifted with a reason."""

from __future__ import annotations

import csv
import sqlite3
from dataclasses import replace
from datetime import date, timedelta
from io import StringIO

import pytest

from app import calendar
from app.documents.lists.safety_csv import owners_csv
from app.domain.errors import BadInput, FaultLifted, NotFound, ShellStands, ShellStopped
from app.domain.floor.safety import AtFault, Built, Owner, Reached, Subject, concerns, reached
from app.domain.floor.shell import ShellState
from app.services.books import publishing
from app.services.despatch import despatching, leaving
from app.services.floor import building, overseeing, safety, signing
from app.services.money import balancing
from app.services.people import signing_in
from app.services.planning import promising
from app.store.db import Store
from rules.model import Book
from rules.specification import Donor
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_billing import receive
from tests.app.test_building import CHEAP, LEAD, WELDER, shells, sign
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_despatching import PACKED, leave, make_ready
from tests.app.test_stock_shells import released as released_for_stock

COUPE = {**S3_ROADSTER, "body": "coupe", "hood": "none"}
DECK = AtFault(Subject.TOOL, "roadster-deck")
WHY = {"en": "The deck’s flange may tear.", "de": "Der Flansch des Decks kann reißen."}


@pytest.fixture
def book(set_up_store: Store) -> Book:
    return publishing.current_book(set_up_store, LATER)


@pytest.fixture
def workshop(desk: Desk) -> Desk:
    for person, code in ((LEAD, "1111"), (WELDER, "2222")):
        signing_in.add_person(desk.store, CHEAP, person, "long enough", LATER)
        signing.set_code(desk.store, CHEAP, MANAGER, person.name, code, LATER)
    return desk


def released(desk: Desk, count: int = 2, *stages: str, chosen: dict[str, str] | None = None) -> list[int]:
    """Shells of one confirmed order, all released; of the first the stages are done."""
    made = shells(desk, confirmed_order(desk, chosen, count=count))
    for shell in made:
        building.release(desk.store, LEAD, shell, LATER)
    for stage in stages:
        sign(desk, made[0], stage)
    return made


def stops(desk: Desk) -> dict[int, list[str]]:
    return {one.shell.id: [stop.what for stop in one.stops] for one in overseeing.floor(desk.store, LATER)}


ON_2 = {"framing": date(2026, 11, 2)}


@pytest.mark.parametrize(
    ("fault", "state", "done", "in_it"),
    [
        # A weld zone of framing, welded on the 2nd: what was welded on the day itself and later is at fault.
        (AtFault(Subject.ZONE, "z-deck"), ShellState.IN_BUILD, ON_2, True),
        (AtFault(Subject.ZONE, "z-deck", date(2026, 11, 2)), ShellState.IN_BUILD, ON_2, True),
        (AtFault(Subject.ZONE, "z-deck", date(2026, 11, 3)), ShellState.IN_BUILD, ON_2, False),
        (AtFault(Subject.ZONE, "z-deck", date(2026, 11, 3)), ShellState.RELEASED, {}, True),
        (AtFault(Subject.OPERATION, "deck-roadster", date(2026, 11, 3)), ShellState.IN_BUILD, ON_2, False),
        # Nobody can say at which stage a choice or a book goes wrong: only what had nothing left to do is out of it.
        (AtFault(Subject.CHOICE, "body.roadster", date(2026, 11, 3)), ShellState.IN_BUILD, ON_2, True),
        (AtFault(Subject.CHOICE, "body.roadster", date(2026, 11, 3)), ShellState.READY, ON_2, False),
        (AtFault(Subject.CHOICE, "body.roadster", date(2026, 11, 2)), ShellState.DESPATCHED, ON_2, True),
        (AtFault(Subject.CHOICE, "body.coupe"), ShellState.IN_BUILD, ON_2, False),
        (AtFault(Subject.BOOKS, "1-3"), ShellState.PLANNED, {}, True),
        (AtFault(Subject.BOOKS, "2-3"), ShellState.PLANNED, {}, False),
        # What the shell's own book doesn't know isn't in it.
        (AtFault(Subject.TOOL, "hammer"), ShellState.IN_BUILD, ON_2, False),
    ],
)
def test_a_fault_is_in_a_shell_that_is_made_so_and_was_not_past_it_before_the_day(
    book: Book, fault: AtFault, state: ShellState, done: dict[str, date], in_it: bool
) -> None:
    settled = {"body": "roadster", "series": "s3", "market": "home", "steering": "right"}
    assert concerns(fault, Built(book, Donor(), settled, state, done)) is in_it


@pytest.mark.parametrize(
    ("state", "how"),
    [
        (ShellState.PLANNED, Reached.NOT_RELEASED),
        (ShellState.ON_HOLD, Reached.STOPPED),
        (ShellState.READY, Reached.STOPPED),
        (ShellState.DESPATCHED, Reached.DESPATCHED),
        (ShellState.REJECTED, None),
        (ShellState.CANCELLED, None),
    ],
)
def test_what_a_fault_does_with_a_shell_goes_by_how_far_it_has_come(state: ShellState, how: Reached | None) -> None:
    assert reached(state) is how


def test_what_follows_is_told_before_it_is_said_and_changes_nothing(workshop: Desk) -> None:
    past, not_past = released(workshop, 2, "sub-assembly", "framing")
    number = workshop.drafted((S3_ROADSTER, 1), (COUPE, 2))
    found = safety.consequences(workshop.store, DECK, LATER)
    assert [one.shell.id for one in found.stopped] == [past, not_past]
    assert (found.not_released, found.despatched) == ((), ())
    assert [(one.promise.number, one.lines, one.shells) for one in found.drafts] == [(number, (1,), 1)]
    assert [one.shells for one in found.accepted] == [2]
    assert stops(workshop) == {past: [], not_past: []}


def test_it_stops_shells_past_its_stage_too_and_lets_them_go_on_once_it_is_lifted(workshop: Desk) -> None:
    past, not_past = released(workshop, 2, "sub-assembly", "framing")
    fault = safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert stops(workshop) == {past: ["safety"], not_past: ["safety"]}
    with pytest.raises(ShellStopped) as refused:
        sign(workshop, past, "rollover")
    assert [(one.path, one.facts["of"]) for one in refused.value.faults] == [(f"safety.{fault}", WHY)]
    safety.lift(workshop.store, MANAGER, fault, "Every flange was looked at: none is torn.", LATER)
    sign(workshop, past, "rollover")
    assert stops(workshop) == {past: [], not_past: []}


def test_a_shell_that_is_ready_stays_in_the_house_and_a_planned_one_is_not_released(workshop: Desk) -> None:
    planned, *_ = shells(workshop, confirmed_order(workshop))
    safety.say_fault(workshop.store, MANAGER, AtFault(Subject.BOOKS, "1-1"), WHY, LATER)
    with pytest.raises(ShellStopped):
        building.release(workshop.store, LEAD, planned, LATER)


def test_the_order_s_dates_say_that_a_fault_stops_its_shells_until_it_is_lifted(workshop: Desk) -> None:
    order, other = (
        confirmed_order(workshop),
        confirmed_order(workshop, COUPE),
    )
    key = safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert [shell.faults for shell in dates(workshop, order)] == [(WHY,)]
    assert [shell.faults for shell in dates(workshop, other)] == [()]
    safety.lift(workshop.store, MANAGER, key, "Each deck was looked at.", LATER)
    assert [shell.faults for shell in dates(workshop, order)] == [()]


def dates(desk: Desk, order: str) -> tuple[promising.Shown, ...]:
    return promising.order_dates(desk.store, CLERK, order, calendar.around, LATER).shells


def test_a_coupe_is_no_shell_of_the_roadster_s_deck(workshop: Desk) -> None:
    released(workshop, 1, chosen=COUPE)
    safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert set(map(tuple, stops(workshop).values())) == {()}


def test_what_was_welded_before_the_day_goes_on(workshop: Desk) -> None:
    past, not_past = released(workshop, 2, "sub-assembly", "framing")
    tomorrow = (LATER + timedelta(days=1)).date()
    zone = AtFault(Subject.ZONE, "z-deck", tomorrow)
    safety.say_fault(workshop.store, MANAGER, zone, WHY, LATER + timedelta(days=1))
    assert stops(workshop) == {past: [], not_past: ["safety"]}


@pytest.mark.parametrize(
    ("fault", "why", "said"),
    [
        (AtFault(Subject.TOOL, "hammer"), WHY, [("of", "not-in-book")]),
        (AtFault(Subject.CHOICE, "body"), WHY, [("of", "not-in-book")]),
        (AtFault(Subject.BOOKS, "2-1"), WHY, [("of", "no-such-books")]),
        (AtFault(Subject.BOOKS, "first"), WHY, [("of", "no-such-books")]),
        (replace(DECK, since=LATER.date() + timedelta(days=1)), {"en": " "},
         [("why", "required"), ("since", "in-the-future")]),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused_and_nothing_stops(
    workshop: Desk, fault: AtFault, why: dict[str, str], said: list[tuple[str, str]]
) -> None:
    with pytest.raises(BadInput) as refused:
        safety.say_fault(workshop.store, MANAGER, fault, why, LATER)
    assert [(one.path, one.code) for one in refused.value.faults] == said
    assert safety.faults(workshop.store) == ()


def test_it_is_lifted_once_and_with_a_reason(desk: Desk) -> None:
    fault = safety.say_fault(desk.store, MANAGER, DECK, {"en": "It may tear."}, LATER)
    with pytest.raises(BadInput):
        safety.lift(desk.store, MANAGER, fault, " ", LATER)
    safety.lift(desk.store, MANAGER, fault, "Looked at.", LATER)
    with pytest.raises(FaultLifted):
        safety.lift(desk.store, MANAGER, fault, "Looked at.", LATER)
    with pytest.raises(NotFound):
        safety.lift(desk.store, MANAGER, fault + 1, "Looked at.", LATER)


def owner(desk: Desk, why: dict[str, str], language: str) -> Owner:
    """Of the shell as it stands, as if it had left the house then."""
    (shell,) = released(desk, 1)
    fault, _ = safety.fault(desk.store, safety.say_fault(desk.store, MANAGER, DECK, why, LATER), LATER)
    one = overseeing.shell(desk.store, LEAD, shell, LATER)
    customer = replace(one.order.frozen.customer, language=language)
    revision = replace(one.order.revision, frozen=replace(one.order.frozen, customer=customer))
    gone = replace(one, order=replace(one.order, revision=revision))
    book = publishing.current_book(desk.store, LATER)
    return safety.owner_of(book, gone, fault, None, {"author": "Imogen Faulk", "sender": "Ravensmoor Body Company"})


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "We delivered the body shell S-2026-00001 to you on 3 November 2026, with our order O-2026-00001."),
        ("de", "am 3. November 2026 haben wir Ihnen mit unserem Auftrag O-2026-00001 die Karosserie S-2026-00001"),
    ],
)
def test_the_letter_says_in_the_owner_s_language_which_shell_it_is_and_what_is_wrong(
    workshop: Desk, language: str, said: str
) -> None:
    letter = owner(workshop, WHY, language)
    assert said in letter.text
    assert (WHY[language] in letter.text, letter.untold, letter.language) == (True, False, language)
    assert letter.text.endswith("Imogen Faulk\nRavensmoor Body Company")
    (row,) = csv.DictReader(StringIO(owners_csv([letter])))
    assert (row["serial"], row["despatched"], row["customer"]) == ("S-2026-00001", "2026-11-03", "Agnes Thornbury")
    assert (row["language"], row["written_at"]) == (language, "")


def test_a_letter_waits_for_no_translation_and_says_that_one_is_missing(workshop: Desk) -> None:
    letter = owner(workshop, {"en": WHY["en"]}, "de")
    assert (WHY["en"] in letter.text, letter.untold) == (True, True)


def test_who_has_what_left_is_written_to_once_and_the_rest_stops(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=2)
    gone, here = shells(workshop, order)
    make_ready(workshop, gone)
    balancing.bill_balance(workshop.store, CLERK, order, LATER, shell=gone)
    despatching.pack(workshop.store, LEAD, gone, PACKED, LATER)
    owed = leaving.of_shell(workshop.store, CLERK, gone, LATER).standing.open
    receive(workshop, order, owed, day=LATER.date(), at=LATER)
    leave(workshop, gone)
    building.release(workshop.store, LEAD, here, LATER)
    fault = safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert stops(workshop) == {gone: [], here: ["safety"]}
    (one,) = safety.owners(workshop.store, CLERK, fault, LATER)
    assert (one.id, one.serial, one.despatched, one.written) == (gone, "S-2026-00001", LATER.date(), None)
    for _ in range(2):
        safety.record_written(workshop.store, CLERK, fault, gone, LATER)
    (one,) = safety.owners(workshop.store, CLERK, fault, LATER)
    assert one.written is not None
    assert one.written.by == "imogen"


def test_what_is_built_for_stock_stops_like_any_other(workshop: Desk) -> None:
    made = released_for_stock(workshop)
    safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert stops(workshop) == {made.shell: ["safety"]}
    with pytest.raises(ShellStopped):
        sign(workshop, made.shell, "sub-assembly")


def test_nobody_is_written_to_about_a_shell_that_is_in_the_house(workshop: Desk) -> None:
    (shell,) = released(workshop, 1)
    fault = safety.say_fault(workshop.store, MANAGER, DECK, WHY, LATER)
    assert safety.owners(workshop.store, MANAGER, fault, LATER) == ()
    with pytest.raises(ShellStands):
        safety.record_written(workshop.store, MANAGER, fault, shell, LATER)


@pytest.mark.parametrize("table", ["safety_faults", "safety_liftings"])
def test_the_record_of_safety_faults_only_grows(desk: Desk, table: str) -> None:
    fault = safety.say_fault(desk.store, MANAGER, DECK, WHY, LATER)
    safety.lift(desk.store, MANAGER, fault, "Looked at.", LATER)
    with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
        db.execute(f"DELETE FROM {table}")
