"""People as the manager keeps them: added, disabled, enabled, reset, never deleted; and dealers' trade terms."""

from __future__ import annotations

import sqlite3
from datetime import timedelta
from decimal import Decimal

import pytest

from app.config import CHEAP
from app.domain.asking.people import Person, Role
from app.domain.asking.token import Scope
from app.domain.errors import (
    BadInput,
    ChangedByAnother,
    LastManager,
    NotFound,
    NotSignedIn,
    PersonDisabled,
    SignInFailed,
    TokenRefused,
    UnknownNames,
)
from app.factory import hasher_of
from app.services.people import letting_in, signing_in, staffing, trading
from app.services.quotations import quoting
from app.store.db import Store
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

HASHER = hasher_of(CHEAP)
ROSA = Person("rosa", "Rosa Teale", Role.CLERK, language="de")
OWN = "four unlike words keep"


@pytest.fixture
def staffed(desk: Desk) -> Desk:
    """A manager, a clerk and a dealer who can sign in with the name they bear."""
    for person in (MANAGER, CLERK, LINDENHOF):
        signing_in.add_person(desk.store, HASHER, person, f"{person.name} at the bench", NOW)
    return desk


def signed_in(store: Store, name: str, password: str) -> signing_in.Opened:
    return signing_in.sign_in(store, HASHER, name, password, "127.0.0.1", NOW)


def faults(error: pytest.ExceptionInfo[BadInput]) -> list[tuple[str, str]]:
    return [(fault.path, fault.code) for fault in error.value.faults]


def test_who_is_added_comes_in_with_what_was_told_once_and_chooses_his_own(staffed: Desk) -> None:
    told = staffing.add(staffed.store, HASHER, MANAGER, ROSA, NOW)
    assert told.password is not None
    assert told.member.first_password
    came = signed_in(staffed.store, "rosa", told.password)
    elsewhere = signed_in(staffed.store, "rosa", told.password)
    assert (came.sign_in.first_password, came.sign_in.person) == (True, ROSA)
    after = signing_in.choose_password(staffed.store, HASHER, came.token, told.password, OWN, "127.0.0.1", NOW)
    assert not after.first_password
    with pytest.raises(NotSignedIn):
        signing_in.signed_in(staffed.store, elsewhere.token, NOW)
    with pytest.raises(SignInFailed):
        signed_in(staffed.store, "rosa", told.password)
    assert not signed_in(staffed.store, "rosa", OWN).sign_in.first_password


@pytest.mark.parametrize(
    ("person", "wrong"),
    [
        (Person("imogen", "Imogen", Role.CLERK), [("name", "name-taken")]),
        (Person("Rosa Teale", "Rosa", Role.CLERK), [("name", "not-a-sign-in-name")]),
        (Person("rosa", " ", Role.CLERK), [("display_name", "required")]),
        (Person("rosa", "Rosa", Role.DEALER), [("dealer", "required")]),  # a dealer's person is some dealer's
        (Person("rosa", "Rosa", Role.LEAD, "lindenhof"), [("dealer", "firms-own")]),
    ],
)
def test_who_is_added_wrongly_is_told_each_field(staffed: Desk, person: Person, wrong: list[tuple[str, str]]) -> None:
    with pytest.raises(BadInput) as refused:
        staffing.add(staffed.store, HASHER, MANAGER, person, NOW)
    assert faults(refused) == wrong


def test_nobody_is_added_for_a_dealer_whom_nobody_knows(staffed: Desk) -> None:
    with pytest.raises(UnknownNames):
        staffing.add(staffed.store, HASHER, MANAGER, Person("rosa", "Rosa", Role.DEALER, "nowhere"), NOW)


def test_who_is_disabled_is_out_at_once_and_his_programs_too_and_comes_back_as_he_was(staffed: Desk) -> None:
    store = staffed.store
    came = signed_in(store, "greta", "greta at the bench")
    secret = letting_in.make(store, LINDENHOF, "Our shop", [Scope.CHECK], None, NOW).secret or ""
    later = NOW + timedelta(hours=1)
    assert staffing.disable(store, MANAGER, "greta", later).disabled_at == later
    with pytest.raises(NotSignedIn):
        signing_in.signed_in(store, came.token, NOW)
    with pytest.raises(SignInFailed):
        signed_in(store, "greta", "greta at the bench")
    with pytest.raises(TokenRefused):
        letting_in.let_in(store, secret, later)
    staffing.disable(store, MANAGER, "greta", later + timedelta(hours=1))
    assert staffing.member(store, "greta").disabled_at == later  # said twice, it stays as it was said first
    with pytest.raises(PersonDisabled):
        staffing.reset(store, HASHER, MANAGER, "greta", later)
    staffing.enable(store, MANAGER, "greta", later)
    with pytest.raises(NotSignedIn):  # what was signed in before stays out
        signing_in.signed_in(store, came.token, NOW)
    assert signed_in(store, "greta", "greta at the bench").sign_in.person == LINDENHOF
    with pytest.raises(TokenRefused):
        letting_in.let_in(store, secret, later)
    assert [entry.what for entry in staffing.happened_to(store, "greta")] == ["person-disabled", "person-enabled"]


def test_the_last_manager_who_can_sign_in_is_never_disabled(staffed: Desk) -> None:
    store, second = staffed.store, Person("maren", "Maren Tolley", Role.MANAGER)
    with pytest.raises(LastManager):
        staffing.disable(store, MANAGER, "piers", NOW)
    staffing.add(store, HASHER, MANAGER, second, NOW)
    staffing.disable(store, second, "piers", NOW)
    with pytest.raises(LastManager):
        staffing.disable(store, second, "maren", NOW)
    assert signing_in.person(store, "maren") == second


def test_the_database_itself_keeps_everybody_and_a_manager(staffed: Desk) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="disabled, not deleted"), staffed.store.writing() as db:
        db.execute("DELETE FROM person")
    with pytest.raises(sqlite3.IntegrityError, match="a manager has to be left"), staffed.store.writing() as db:
        db.execute("UPDATE person SET disabled_at = '2026-11-02' WHERE name = 'piers'")


def test_a_reset_ends_what_is_signed_in_and_has_to_be_changed(staffed: Desk) -> None:
    came = signed_in(staffed.store, "imogen", "imogen at the bench")
    told = staffing.reset(staffed.store, HASHER, MANAGER, "imogen", NOW)
    with pytest.raises(NotSignedIn):
        signing_in.signed_in(staffed.store, came.token, NOW)
    assert signed_in(staffed.store, "imogen", told.password or "").sign_in.first_password


@pytest.mark.parametrize(
    ("current", "new", "wrong"),
    [
        ("not this", OWN, [("current", "wrong-password")]),
        ("imogen at the bench", "too little", [("new", "too-short")]),
        ("imogen at the bench", "imogen at the bench", [("new", "same-password")]),
        ("imogen at the bench", "I am Imogen Faulk", [("new", "name-in-password")]),
    ],
)
def test_an_own_password_that_will_not_do_is_told(
    staffed: Desk, current: str, new: str, wrong: list[tuple[str, str]]
) -> None:
    came = signed_in(staffed.store, "imogen", "imogen at the bench")
    with pytest.raises(BadInput) as refused:
        signing_in.choose_password(staffed.store, HASHER, came.token, current, new, "127.0.0.1", NOW)
    assert faults(refused) == wrong
    assert signed_in(staffed.store, "imogen", "imogen at the bench")


def test_what_somebody_did_is_read_page_by_page_the_last_first(staffed: Desk) -> None:
    number = staffed.drafted((S3_ROADSTER, 1))
    staffed.issue(number)
    deeds, more = staffing.deeds(staffed.store, "imogen")
    assert (deeds[0].thing, deeds[0].name, deeds[0].happening.what) == ("quotation", number, "revision-issued")
    assert not more
    for day in range(staffing.DEEDS_ON_A_PAGE):
        staffing.reset(staffed.store, HASHER, CLERK, "greta", NOW + timedelta(days=day))
    first, more = staffing.deeds(staffed.store, "imogen")
    second, last = staffing.deeds(staffed.store, "imogen", 2)
    assert (len(first), more, last) == (staffing.DEEDS_ON_A_PAGE, True, False)
    assert second == deeds
    with pytest.raises(NotFound):
        staffing.deeds(staffed.store, "nobody")


def test_terms_are_changed_with_who_and_why_and_what_is_out_keeps_its_price(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=LINDENHOF, price_list="EUR")
    before = desk.issue(number, who=LINDENHOF).frozen
    told = {"A": "15", "B": "5", "C": "0", "D": "0"}
    after = trading.change(desk.store, MANAGER, "lindenhof", "EUR", told, "Three orders a year.", NOW, expected=1)
    assert (after.dealer.discounts["A"], after.version) == (Decimal(15), 2)
    assert after.history[0].facts["before"] == "EUR, A 12 %, B 5 %, C 0 %, D 0 %"
    assert after.history[0].facts["why"] == "Three orders a year."
    assert quoting.quotation(desk.store, LINDENHOF, number, NOW).revisions[0].frozen == before
    with pytest.raises(ChangedByAnother):
        trading.change(desk.store, MANAGER, "lindenhof", "EUR", told, "Again.", NOW, expected=1)


def test_terms_that_will_not_do_are_told_field_by_field(desk: Desk) -> None:
    with pytest.raises(BadInput) as refused:
        trading.change(desk.store, MANAGER, "lindenhof", "EUR", {"A": "101", "X": "1"}, " ", NOW, expected=1)
    assert faults(refused) == [
        ("why", "required"),
        ("discounts.A", "not-a-percent"),
        ("discounts.X", "unknown-category"),
    ]
