from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.customers.customer import Customer
from app.domain.errors import BadInput, ChangedByAnother, NotFound, Refusal, UnknownNames
from app.domain.quotations.enquiry import DonorCar, Intent, Picture, Source, Wish
from app.services.quotations import enquiring
from rules.specification import Donor
from tests.app.desk import BAYOU, CLERK, LINDENHOF, NOW, Desk

DONOR = DonorCar(
    "T3-12044",
    series="s3",
    number=12044,
    established=True,
    gearbox="manual",
    built=Picture({"bumpers": "chrome"}, Source.FACTORY, "Works ledger."),
    stands=Picture({"bumpers": "impact"}, Source.OWNER, "Reshelled in 1994."),
    ordered=Picture({"bumpers": "chrome"}),
    intent=Intent.ANOTHER_SERIES,
)


def test_an_enquiry_is_kept_as_it_was_taken_down(desk: Desk) -> None:
    customer = Customer("Agnes Thornbury", country="DE", language="de", telephone="+44 1632 960 204", units="imperial")
    wish = Wish(customer, DONOR, date(2027, 6, 1), "Rang at nine.")
    taken = enquiring.create_enquiry(desk.store, CLERK, wish, NOW)
    found = enquiring.enquiry(desk.store, CLERK, taken.id)
    assert (found.reference, found.created_by, found.created_at, found.version) == ("E-2026-00001", "imogen", NOW, 1)
    assert replace(found.customer, id=None) == customer
    assert (found.wanted_by, found.note) == (date(2027, 6, 1), "Rang at nine.")


def test_the_donor_car_has_three_pictures_each_with_who_says_so(desk: Desk) -> None:
    found = desk.take_down(wish=desk.wish(donor=DONOR)).donor
    assert replace(found, id=None) == DONOR
    with desk.store.reading() as db:
        rows = db.execute("SELECT picture, said_by FROM donor_pictures ORDER BY picture").fetchall()
    assert [tuple(row) for row in rows] == [("built", "factory-record"), ("ordered", None), ("stands", "owner")]


def test_what_is_wanted_of_the_shell_stays_unsaid_until_somebody_asks(desk: Desk) -> None:
    assert desk.take_down(wish=desk.wish(donor=DonorCar())).donor.intent is None


def test_a_number_past_the_last_is_kept_as_text_and_established_by_nobody(desk: Desk) -> None:
    found = desk.take_down(wish=desk.wish(donor=DonorCar("T2-21301", gearbox="automatic"))).donor
    assert (found.number_text, found.established, found.facts()) == ("T2-21301", False, Donor(gearbox="automatic"))


def test_a_number_past_the_last_can_t_be_called_established(desk: Desk) -> None:
    beyond = DonorCar("T2-21301", series="s2", number=21301, established=True)
    with pytest.raises(BadInput) as refused:
        desk.take_down(wish=desk.wish(donor=beyond))
    (fault,) = refused.value.faults
    assert (fault.path, fault.code, fault.facts) == ("donor.number", "too-large", {"most": 21300})


def test_all_faults_are_told_at_once_and_nothing_is_kept(desk: Desk) -> None:
    donor = DonorCar(series="s9", gearbox="none", built=Picture({"bumpers": "rubber", "wings": "big"}))
    wish = Wish(
        Customer(" ", country="XX", language="xx", units="cubits", telephone="1" * 201), donor, note="n" * 10_001
    )
    with pytest.raises(BadInput) as refused:
        enquiring.create_enquiry(desk.store, CLERK, wish, NOW)
    assert {fault.path for fault in refused.value.faults} == {
        "customer.name",
        "customer.country",
        "customer.language",
        "customer.units",
        "customer.telephone",
        "donor.series",
        "donor.gearbox",
        "donor.built.bumpers",
        "donor.built.wings",
        "note",
    }
    assert enquiring.find_enquiries(desk.store, CLERK, NOW).rows == ()


def test_where_only_names_are_at_fault_it_says_that_the_book_hasn_t_them(desk: Desk) -> None:
    with pytest.raises(UnknownNames) as refused:
        desk.take_down(wish=desk.wish(donor=DonorCar(stands=Picture({"wings": "big"}))))
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("donor.stands.wings", "unknown-option")]


def test_an_edit_replaces_what_was_typed_and_counts_the_version(desk: Desk) -> None:
    taken = desk.take_down()
    later = NOW + timedelta(hours=1)
    wish = Wish(Customer("Agnes Thornbury-Fell", country="GB"), DONOR, note="Wants it by June.")
    edited = enquiring.edit_enquiry(desk.store, CLERK, taken.id, wish, later, expected=1)
    assert (edited.customer.name, edited.donor.series, edited.note) == (
        "Agnes Thornbury-Fell",
        "s3",
        "Wants it by June.",
    )
    assert (edited.version, edited.created_at, edited.updated_at) == (2, NOW, later)


def test_the_second_of_two_editors_is_told_and_the_first_one_s_words_stay(desk: Desk) -> None:
    taken = desk.take_down()
    enquiring.edit_enquiry(desk.store, CLERK, taken.id, replace(desk.wish(), note="first"), NOW, expected=1)
    with pytest.raises(ChangedByAnother) as refused:
        enquiring.edit_enquiry(desk.store, CLERK, taken.id, replace(desk.wish(), note="second"), NOW, expected=1)
    assert refused.value.facts == {"what": "enquiry", "name": "E-2026-00001", "expected": 1, "actual": 2}
    assert enquiring.enquiry(desk.store, CLERK, taken.id).note == "first"


@pytest.mark.parametrize(
    "text",
    [
        "thornbury",  # part of the name
        "AGNES  thorn",  # words in any case and spacing
        "960204",  # the telephone number without its spaces
        "960 204",
        "t3-12044",  # the donor's number
        "T312044",
        "e-2026-00001",  # the enquiry's reference
        "Q-2026-00001",  # a quotation of it
        "thornbury 12044",  # a word of each
    ],
)
def test_one_field_finds_an_enquiry_by_name_number_donor_or_telephone(desk: Desk, text: str) -> None:
    wish = desk.wish(donor=DonorCar("T3-12044"), telephone="+44 1632 960 204")
    desk.drafted(({"body": "roadster", "market": "home", "series": "s3"}, 1), wish=wish)
    desk.take_down(wish=desk.wish("Tobias Fell"))
    assert [found.customer.name for found in enquiring.find_enquiries(desk.store, CLERK, NOW, text).rows] == [
        "Agnes Thornbury"
    ]


@pytest.mark.parametrize("text", ["thornbury fell", "%", "_", "' OR 1=1 --"])
def test_what_matches_nothing_finds_nothing_or_all_but_never_breaks(desk: Desk, text: str) -> None:
    desk.take_down()
    found = enquiring.find_enquiries(desk.store, CLERK, NOW, text).rows
    assert len(found) == (0 if any(character.isalnum() for character in text) else 1)


def test_umlauts_are_found_in_any_case(desk: Desk) -> None:
    desk.take_down(wish=desk.wish("Jürgen ÄRMEL"))
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "JÜRGEN ärmel").rows) == 1


def test_lists_come_in_pages_the_last_changed_first(desk: Desk) -> None:
    for hour, name in enumerate(("first", "second", "third")):
        desk.take_down(wish=desk.wish(name), at=NOW + timedelta(hours=hour))
    first = enquiring.find_enquiries(desk.store, CLERK, NOW, size=2)
    assert first.next is not None
    second = enquiring.find_enquiries(desk.store, CLERK, NOW, after=int(first.next[0]), size=2)
    assert [[found.customer.name for found in page.rows] for page in (first, second)] == [
        ["third", "second"],
        ["first"],
    ]
    assert second.next is None


def test_a_dealer_s_enquiry_is_his_own_whatever_he_writes(desk: Desk) -> None:
    taken = desk.take_down(LINDENHOF, desk.wish(dealer="bayou-road"))
    assert (taken.dealer, taken.customer.dealer) == ("lindenhof", "lindenhof")


def test_a_dealer_can_t_learn_which_other_dealers_there_are(desk: Desk) -> None:
    for named in ("bayou-road", "no-such-dealer"):
        assert desk.take_down(LINDENHOF, desk.wish(dealer=named)).dealer == "lindenhof"


def test_the_clerk_takes_an_enquiry_down_for_a_dealer_who_then_sees_it(desk: Desk) -> None:
    taken = desk.take_down(CLERK, desk.wish(dealer="lindenhof"))
    assert enquiring.enquiry(desk.store, LINDENHOF, taken.id).reference == taken.reference


def test_the_clerk_is_told_of_a_dealer_there_isn_t(desk: Desk) -> None:
    with pytest.raises(UnknownNames):
        desk.take_down(CLERK, desk.wish(dealer="no-such-dealer"))


def test_another_dealer_s_enquiry_is_exactly_as_if_it_were_not_there(desk: Desk) -> None:
    theirs = desk.take_down(LINDENHOF)
    there_is_none = theirs.id + 1

    def refusal(enquiry: int, edit: bool) -> tuple[type[Refusal], dict[str, object]]:
        with pytest.raises(NotFound) as refused:
            if edit:
                enquiring.edit_enquiry(desk.store, BAYOU, enquiry, desk.wish(), NOW, expected=1)
            else:
                enquiring.enquiry(desk.store, BAYOU, enquiry)
        return type(refused.value), {**refused.value.facts, "name": refused.value.facts["name"] == str(enquiry)}

    for edit in (False, True):
        assert refusal(theirs.id, edit) == refusal(there_is_none, edit)
    assert enquiring.find_enquiries(desk.store, BAYOU, NOW, "thornbury").rows == ()
