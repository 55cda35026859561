"""Customers as things of their own: known again, merged, handed out, erased."""

from __future__ import annotations

import json
import sqlite3
from dataclasses import replace
from datetime import timedelta
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest

from app.domain.customers.customer import Customer
from app.domain.customers.likeness import Ground, grounds
from app.domain.errors import BadInput, ChangedByAnother, DataErased, NotFound
from app.domain.paging import Page
from app.domain.quotations.chasing import Kind, Sending, Way
from app.domain.quotations.enquiry import DonorCar, Enquiry, Wish
from app.domain.quotations.quotation import Reply
from app.services.customers import disclosing, erasing, knowing, merging
from app.services.letters import chasing
from app.services.orders import ordering
from app.services.quotations import enquiring, handing_out, quoting, settling
from app.store.db import Store
from tests.app.desk import BAYOU, CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

READY = {**S3_ROADSTER, "packing": "dolly", "delivery": "collected"}
AGNES = Customer(
    "Agnes Thornbury",
    country="GB",
    telephone="+44 1632 960 204",
    email="agnes@thornbury.example",
    address="3 Mill Row",
)


def taken_down(desk: Desk, customer: Customer = AGNES, donor: str = "", who=CLERK) -> Enquiry:  # type: ignore[no-untyped-def]
    return desk.take_down(who, Wish(customer, DonorCar(donor), note="Agnes rang at nine."))


def number_of(enquiry: Enquiry) -> int:
    assert enquiry.customer.id is not None
    return enquiry.customer.id


def issued(desk: Desk, customer: Customer = AGNES) -> str:
    number = desk.drafted((READY, 1), wish=Wish(customer, DonorCar(gearbox="manual"), note="Agnes rang."))
    desk.issue(number)
    return number


def accepted(desk: Desk, number: str) -> str:
    version = desk.revision(number).version
    settling.accept(desk.store, CLERK, number, "A", Reply(NOW, "Agnes Thornbury"), NOW, expected=version)
    return ordering.order_of(desk.store, CLERK, number)


def customer_of(desk: Desk, number: str) -> int:
    enquiry = quoting.quotation(desk.store, CLERK, number, NOW).enquiry
    return number_of(enquiring.enquiry(desk.store, CLERK, enquiry))


def file_holds(store: Store, text: str) -> bool:
    """Whether the very bytes of the database, or of its log of writes, still hold the text."""
    files = [store.path, Path(f"{store.path}-wal")]
    return any(text.encode() in file.read_bytes() for file in files if file.exists())


# --- one customer, several enquiries


def test_a_second_enquiry_of_one_who_is_known_makes_no_second_customer(desk: Desk) -> None:
    first = taken_down(desk)
    second = taken_down(desk, replace(AGNES, id=number_of(first)), "T3-12044")
    page = knowing.customer_page(desk.store, CLERK, number_of(first), NOW)
    assert [one.reference for one in page.enquiries] == [second.reference, first.reference]
    assert len(knowing.find_customers(desk.store, CLERK, NOW).rows) == 1


def test_a_new_telephone_number_counts_for_all_enquiries_of_the_customer_and_finds_each(desk: Desk) -> None:
    first = taken_down(desk)
    known = replace(AGNES, id=number_of(first), telephone="+44 1632 960 999")
    taken_down(desk, known)
    assert enquiring.enquiry(desk.store, CLERK, first.id).customer.telephone == "+44 1632 960 999"
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "960999").rows) == 2
    assert enquiring.find_enquiries(desk.store, CLERK, NOW, "960204").rows == ()


def test_whoever_had_the_other_enquiry_open_is_told_that_the_customer_was_changed(desk: Desk) -> None:
    first = taken_down(desk)
    taken_down(desk, replace(AGNES, id=number_of(first), telephone="+44 1632 960 999"))
    with pytest.raises(ChangedByAnother):
        enquiring.edit_enquiry(desk.store, CLERK, first.id, Wish(AGNES), NOW, expected=first.version)


def test_another_name_typed_over_a_shared_customer_is_another_customer(desk: Desk) -> None:
    """Whoever names no customer means his own enquiry's, and this one is somebody else's too."""
    first = taken_down(desk)
    second = taken_down(desk, replace(AGNES, id=number_of(first)))
    tobias = Wish(Customer("Tobias Fell", country="GB"))
    edited = enquiring.edit_enquiry(desk.store, CLERK, second.id, tobias, NOW, expected=second.version)
    assert edited.customer.name == "Tobias Fell"
    assert enquiring.enquiry(desk.store, CLERK, first.id).customer.name == "Agnes Thornbury"


def test_half_a_name_that_turns_out_to_be_one_who_is_known_leaves_no_customer_behind(desk: Desk) -> None:
    first = taken_down(desk)
    second = taken_down(desk, Customer("Agn", country="GB"))
    known = Wish(replace(AGNES, id=number_of(first)))
    enquiring.edit_enquiry(desk.store, CLERK, second.id, known, NOW, expected=second.version)
    assert [one.kept.customer.name for one in knowing.find_customers(desk.store, CLERK, NOW).rows] == [
        "Agnes Thornbury"
    ]


def test_a_customer_of_another_dealer_is_as_if_there_were_none(desk: Desk) -> None:
    theirs = number_of(taken_down(desk, who=LINDENHOF))
    with pytest.raises(NotFound):
        knowing.customer_page(desk.store, BAYOU, theirs, NOW)
    with pytest.raises(NotFound):
        taken_down(desk, replace(AGNES, id=theirs), who=BAYOU)
    assert knowing.find_customers(desk.store, BAYOU, NOW, "thornbury").rows == ()
    assert knowing.alike(desk.store, BAYOU, replace(AGNES, dealer="lindenhof")) == ()


def test_a_customer_s_page_has_his_quotations_orders_and_papers(desk: Desk) -> None:
    number = issued(desk)
    order = accepted(desk, number)
    page = knowing.customer_page(desk.store, CLERK, customer_of(desk, number), NOW)
    assert [row.number for row in page.quotations] == [number]
    assert [row.number for row in page.orders] == [order]
    assert [(paper.sort, paper.number, paper.letter) for paper in page.papers] == [("quotation", number, "A")]


# --- found again in one field, with the reason


@pytest.mark.parametrize(
    ("text", "sort", "told"),
    [
        ("thornbury", "name", "Agnes Thornbury"),
        ("01632 960204", "telephone", "+44 1632 960 204"),  # as it is dialled at home
        ("0044 (1632) 960-204", "telephone", "+44 1632 960 204"),  # as it is dialled from abroad
        ("thornbury.example", "email", "agnes@thornbury.example"),
        ("t3 12044", "donor", "T3-12044"),
        ("E-2026-00001", "reference", "E-2026-00001"),
        ("q202600001", "quotation", "Q-2026-00001"),
        ("O-2026-00001", "order", "O-2026-00001"),
    ],
)
def test_one_field_finds_by_whatever_is_at_hand_and_says_by_what(desk: Desk, text: str, sort: str, told: str) -> None:
    donor = DonorCar("T3-12044", "s3", 12044, established=True, gearbox="manual")
    number = desk.drafted((READY, 1), wish=Wish(AGNES, donor))
    desk.issue(number)
    accepted(desk, number)
    taken_down(desk, Customer("Tobias Fell", country="GB"))
    (found,) = enquiring.find_enquiries(desk.store, CLERK, NOW, text).rows
    hits = enquiring.found_by(desk.store, CLERK, [found.id], text, NOW)[found.id]
    assert (sort, told) in [(hit.sort, hit.text) for hit in hits]
    assert [row.number for row in quoting.quotations(desk.store, CLERK, NOW, text=text).rows] == [number]


# --- duplicates


@pytest.mark.parametrize(
    ("one", "other", "ground"),
    [
        # The same number, at home and from abroad.
        (Customer("A", telephone="01632 960204"), Customer("B", telephone="+44 (0)1632 960-204"), Ground.TELEPHONE),
        (Customer("A", email="a@b.example "), Customer("B", email="A@B.example"), Ground.EMAIL),
        # The family's name first; an umlaut written as two letters.
        (Customer("Jürgen Müller", country="DE"), Customer("Mueller, Juergen", country="DE"), Ground.NAME),
        # A slip of the pen.
        (Customer("Agnes Thornbury", country="GB"), Customer("Agnes Thornburry", country="GB"), Ground.NEAR_NAME),
        # A form begins with the firm's own country until somebody asks.
        (Customer("Agnes Thornbury", country="GB"), Customer("Agnes Thornbury", country="DE"), Ground.NAME_ABROAD),
    ],
)
def test_two_who_may_be_one_are_known_by_the_first_ground(one: Customer, other: Customer, ground: Ground) -> None:
    assert grounds(one, other)[0] is ground
    assert grounds(other, one)[0] is ground


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Customer("John Smith", country="GB"), Customer("Jane Smith", country="GB")),
        # A slip of the pen, and another country.
        (Customer("Agnes Thornbury", country="GB"), Customer("Agnes Thornburry", country="US")),
        (Customer("A"), Customer("B")),  # neither has a telephone
        (Customer("", country="GB"), Customer("", country="GB")),
    ],
)
def test_two_who_merely_resemble_each_other_are_not_offered(one: Customer, other: Customer) -> None:
    assert grounds(one, other) == ()


def test_who_is_typed_in_and_known_already_is_offered_with_what_speaks_for_it(desk: Desk) -> None:
    known = number_of(taken_down(desk))
    taken_down(desk, Customer("Tobias Fell", country="GB"))
    typed = Customer("Mrs Thornbury", country="GB", telephone="01632 960204")
    assert [(one.kept.id, one.grounds) for one in knowing.alike(desk.store, CLERK, typed)] == [
        (known, (Ground.TELEPHONE,))
    ]


def test_the_firm_s_own_customer_is_not_offered_for_a_dealer_s(desk: Desk) -> None:
    taken_down(desk)
    assert knowing.alike(desk.store, CLERK, replace(AGNES, dealer="lindenhof")) == ()


def two_of_one(desk: Desk) -> tuple[int, int]:
    kept = number_of(taken_down(desk))
    other = Customer("Agnes Thornbury-Fell", country="GB", telephone="01632 960204", address="9 New Street")
    return kept, number_of(taken_down(desk, other, "T3-12044"))


def merged(desk: Desk) -> tuple[int, int]:
    kept, gone = two_of_one(desk)
    versions = {"expected": 1, "other_expected": 1}
    merging.merge(desk.store, CLERK, kept, gone, ["address"], NOW, **versions)
    return kept, gone


def test_merging_keeps_the_values_that_were_chosen_and_gives_one_page_to_both(desk: Desk) -> None:
    kept, gone = merged(desk)
    page = knowing.customer_page(desk.store, CLERK, gone, NOW)
    assert page.kept.id == kept
    assert (page.kept.customer.name, page.kept.customer.address) == ("Agnes Thornbury", "9 New Street")
    assert len(page.enquiries) == 2
    assert [one.customer.name for one in page.former] == ["Agnes Thornbury-Fell"]
    assert page.alike == ()


@pytest.mark.parametrize(("text", "sort"), [("Thornbury-Fell", "former-name"), ("Agnes", "name")])
def test_after_merging_both_names_are_found(desk: Desk, text: str, sort: str) -> None:
    kept, _ = merged(desk)
    (found,) = knowing.find_customers(desk.store, CLERK, NOW, text).rows
    assert (found.kept.id, found.found_by[0].sort) == (kept, sort)
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, text).rows) == 2


def test_a_name_that_gave_way_to_the_other_s_is_still_found(desk: Desk) -> None:
    kept, gone = two_of_one(desk)
    merging.merge(desk.store, CLERK, kept, gone, ["name"], NOW, expected=1, other_expected=1)
    page = knowing.customer_page(desk.store, CLERK, kept, NOW)
    assert page.kept.customer.name == "Agnes Thornbury-Fell"
    assert [(one.customer.name, one.customer.address) for one in page.former] == [("Agnes Thornbury", "9 New Street")]


def test_the_history_tells_of_the_merging_and_holds_nothing_personal(desk: Desk) -> None:
    kept, gone = merged(desk)
    (entry,) = knowing.customer_page(desk.store, CLERK, kept, NOW).history
    assert (entry.what, entry.by, entry.facts) == (
        "customers-merged",
        "imogen",
        {"other": str(gone), "fields": "address"},
    )


def test_merging_what_was_changed_meanwhile_is_refused(desk: Desk) -> None:
    kept, gone = two_of_one(desk)
    with pytest.raises(ChangedByAnother):
        merging.merge(desk.store, CLERK, kept, gone, [], NOW, expected=1, other_expected=2)


def test_nobody_is_merged_into_himself_or_with_another_dealer_s(desk: Desk) -> None:
    kept, _ = two_of_one(desk)
    theirs = number_of(taken_down(desk, who=LINDENHOF))
    for other in (kept, theirs):
        with pytest.raises(BadInput):
            merging.merge(desk.store, CLERK, kept, other, [], NOW, expected=1, other_expected=1)


def test_two_who_were_said_to_be_two_are_offered_no_more(desk: Desk) -> None:
    kept, other = two_of_one(desk)
    assert [one.kept.id for one in knowing.customer_page(desk.store, CLERK, kept, NOW).alike] == [other]
    merging.keep_apart(desk.store, CLERK, kept, other, NOW)
    for number in (kept, other):
        assert knowing.customer_page(desk.store, CLERK, number, NOW).alike == ()


def test_merging_changes_no_paper_that_went_out(desk: Desk) -> None:
    first, second = issued(desk), issued(desk, Customer("Agnes Thornbury-Fell", country="GB"))
    paper = handing_out.paper(desk.store, CLERK, second, "A", "en", "a4", NOW)
    kept, gone = customer_of(desk, first), customer_of(desk, second)
    merging.merge(desk.store, CLERK, kept, gone, [], NOW, expected=1, other_expected=1)
    assert handing_out.paper(desk.store, CLERK, second, "A", "en", "a4", NOW) == paper
    frozen = desk.revision(second).frozen
    assert frozen is not None
    assert frozen.customer.name == "Agnes Thornbury-Fell"


# --- personal data


def test_everything_that_is_held_is_handed_out_with_every_paper_as_it_went_out(desk: Desk) -> None:
    number = issued(desk)
    paper = handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW)
    archive = ZipFile(BytesIO(disclosing.everything_on(desk.store, CLERK, customer_of(desk, number), NOW)))
    assert archive.namelist() == ["data.json", f"papers/quotation-{number}-A-en-a4.pdf"]
    assert archive.read(archive.namelist()[1]) == paper
    held = json.loads(archive.read("data.json"))["held"]
    assert (held["customers"][0]["email"], held["enquiries"][0]["note"]) == (AGNES.email, "Agnes rang.")
    assert held["revisions"][0]["frozen"]["customer"]["address"] == "3 Mill Row"


def test_what_is_handed_out_holds_nothing_of_another_customer(desk: Desk) -> None:
    number = issued(desk)
    issued(desk, Customer("Tobias Fell", country="GB"))
    archive = ZipFile(BytesIO(disclosing.everything_on(desk.store, CLERK, customer_of(desk, number), NOW)))
    assert b"Tobias" not in archive.read("data.json")
    assert len(archive.namelist()) == 2


def erased(desk: Desk, number: int, why: str = "asked for by letter") -> None:
    told = erasing.outlook(desk.store, MANAGER, number)
    erasing.erase(desk.store, MANAGER, number, why, told.seen, NOW)


def test_the_outlook_says_what_would_go_and_erases_nothing(desk: Desk) -> None:
    number = issued(desk)
    told = erasing.outlook(desk.store, MANAGER, customer_of(desk, number))
    assert told.reach.goes["quotations"] == (number,)
    assert told.reach.goes["papers"] == (f"{number} A en",)
    assert told.reach.stays == {"quotations": (), "orders": (), "documents": (), "photographs": ()}
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "thornbury").rows) == 1


def test_an_erased_name_is_in_no_answer_no_paper_and_no_byte_of_the_folder(desk: Desk) -> None:
    number = issued(desk)
    customer = customer_of(desk, number)
    sending = Sending(Kind.OFFER, Way.E_MAIL, AGNES.email, NOW.date(), "Dear Agnes Thornbury")
    chasing.record_sent(desk.store, CLERK, number, "A", sending, NOW)
    assert file_holds(desk.store, "Thornbury")
    erased(desk, customer)
    for text in ("thornbury", "960204", "agnes@"):
        assert enquiring.find_enquiries(desk.store, CLERK, NOW, text).rows == ()
        assert quoting.quotations(desk.store, CLERK, NOW, text=text).rows == ()
        assert knowing.find_customers(desk.store, CLERK, NOW, text).rows == ()
    for text in ("Thornbury", "thornbury", "960 204", "agnes@", "Mill Row"):
        assert not file_holds(desk.store, text), text
    with pytest.raises(DataErased):
        handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW)


def test_the_erased_customer_keeps_his_number_and_what_was_asked_for(desk: Desk) -> None:
    number = issued(desk)
    customer, totals = customer_of(desk, number), desk.revision(number).totals
    erased(desk, customer)
    page = knowing.customer_page(desk.store, CLERK, customer, NOW)
    assert (page.kept.customer.name, page.kept.customer.country) == (f"№ {customer}", "GB")
    assert page.kept.erased is not None
    assert (page.kept.erased.by, page.kept.erased.why, page.kept.erased.at) == ("piers", "asked for by letter", NOW)
    assert [entry.what for entry in page.history] == ["customer-erased"]
    frozen = desk.revision(number).frozen
    assert frozen is not None
    assert frozen.customer.name == f"№ {customer}"
    assert frozen.totals == totals


def test_what_an_order_follows_stays_as_it_went_out(desk: Desk) -> None:
    number, loose = issued(desk), None
    paper = handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW)
    order = accepted(desk, number)
    customer = customer_of(desk, number)
    loose = issued(desk, replace(AGNES, id=customer))
    told = erasing.outlook(desk.store, MANAGER, customer)
    assert told.reach.stays == {"quotations": (number,), "orders": (order,), "documents": (), "photographs": ()}
    assert told.reach.goes["quotations"] == (loose,)
    erased(desk, customer)
    assert handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW) == paper
    frozen = desk.revision(number).frozen
    assert frozen is not None
    assert frozen.customer.name == "Agnes Thornbury"
    assert enquiring.find_enquiries(desk.store, CLERK, NOW, "thornbury").rows == ()


def test_erasing_reaches_the_name_of_before_a_merger(desk: Desk) -> None:
    kept, _ = merged(desk)
    erased(desk, kept)
    assert not file_holds(desk.store, "Thornbury")


def test_what_came_after_the_outlook_stops_the_erasing(desk: Desk) -> None:
    number = issued(desk)
    customer = customer_of(desk, number)
    told = erasing.outlook(desk.store, MANAGER, customer)
    accepted(desk, number)
    with pytest.raises(ChangedByAnother):
        erasing.erase(desk.store, MANAGER, customer, "asked for", told.seen, NOW)
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "thornbury").rows) == 1


def test_erasing_needs_a_reason(desk: Desk) -> None:
    customer = number_of(taken_down(desk))
    with pytest.raises(BadInput):
        erasing.erase(desk.store, MANAGER, customer, " ", erasing.outlook(desk.store, MANAGER, customer).seen, NOW)


def test_an_erased_customer_is_written_on_by_nobody(desk: Desk) -> None:
    enquiry = taken_down(desk)
    erased(desk, number_of(enquiry))
    version = enquiring.enquiry(desk.store, CLERK, enquiry.id).version
    with pytest.raises(DataErased):
        enquiring.edit_enquiry(desk.store, CLERK, enquiry.id, Wish(AGNES), NOW, expected=version)
    with pytest.raises(DataErased):
        taken_down(desk, replace(AGNES, id=number_of(enquiry)))


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE revisions SET frozen = json_set(frozen, '$.customer.name', 'X') WHERE frozen IS NOT NULL",
        "DELETE FROM papers",
        "UPDATE history SET facts = '{}'",
        "UPDATE revisions SET price_list = 'EUR' WHERE issued_at IS NOT NULL",
    ],
)
def test_without_an_erasure_nothing_that_went_out_can_be_touched(desk: Desk, statement: str) -> None:
    number = issued(desk)
    with pytest.raises(sqlite3.IntegrityError), desk.store.writing() as db:
        db.execute(statement)
    accepted(desk, number)
    with desk.store.writing() as db:
        db.execute("INSERT INTO erasures (customer, why, at, by) SELECT customer, 'x', '2026', 'x' FROM enquiries")
    with pytest.raises(sqlite3.IntegrityError), desk.store.writing() as db:
        db.execute(statement)


def test_an_erasure_lets_nobody_touch_the_price(desk: Desk) -> None:
    erased(desk, customer_of(desk, issued(desk)))
    for statement in (
        "UPDATE revisions SET price_list = 'EUR'",
        "UPDATE revisions SET frozen = json_set(frozen, '$.currency', 'EUR')",
    ):
        with pytest.raises(sqlite3.IntegrityError), desk.store.writing() as db:
            db.execute(statement)


# --- retention


def test_nobody_is_proposed_until_the_manager_has_said_after_how_long(desk: Desk) -> None:
    taken_down(desk)
    later = NOW + timedelta(days=4000)
    assert erasing.retention_proposals(desk.store, later) == erasing.Proposed(None, Page((), None))


def test_who_never_ordered_is_proposed_once_nothing_has_moved_for_so_many_months(desk: Desk) -> None:
    """24 months after 2 November 2026 is 2 November 2028."""
    customer = number_of(taken_down(desk))
    erasing.keep_for(desk.store, MANAGER, 24, NOW)
    day_before = NOW.replace(year=2028, day=1)
    assert erasing.retention_proposals(desk.store, day_before).due.rows == ()
    proposed = erasing.retention_proposals(desk.store, NOW.replace(year=2028))
    assert [(one.id, one.name, one.moved) for one in proposed.due.rows] == [(customer, "Agnes Thornbury", NOW)]


def test_whoever_may_be_held_a_second_time_is_marked_before_he_is_erased(desk: Desk) -> None:
    first = number_of(taken_down(desk))
    erasing.keep_for(desk.store, MANAGER, 24, NOW)
    later = NOW.replace(year=2029)
    assert erasing.retention_proposals(desk.store, later).alike == frozenset()
    second = number_of(taken_down(desk))
    assert erasing.retention_proposals(desk.store, later).alike == {first, second}


def test_who_ordered_is_never_proposed(desk: Desk) -> None:
    accepted(desk, issued(desk))
    erasing.keep_for(desk.store, MANAGER, 1, NOW)
    assert erasing.retention_proposals(desk.store, NOW + timedelta(days=4000)).due.rows == ()


def test_the_months_count_from_the_last_day_of_an_offer_that_is_out(desk: Desk) -> None:
    issued(desk)
    erasing.keep_for(desk.store, MANAGER, 1, NOW)
    assert erasing.retention_proposals(desk.store, NOW + timedelta(days=32)).due.rows == ()
    assert len(erasing.retention_proposals(desk.store, NOW + timedelta(days=64)).due.rows) == 1


def test_who_is_proposed_comes_page_by_page_the_longest_still_first(desk: Desk) -> None:
    erasing.keep_for(desk.store, MANAGER, 1, NOW)
    names = ("Ada Fenn", "Tobias Fell", "Moll Bright")
    for day, name in enumerate(names):
        desk.take_down(CLERK, Wish(Customer(name, country="GB")), at=NOW + timedelta(days=day))
    later = NOW + timedelta(days=62)
    first = erasing.retention_proposals(desk.store, later, size=2).due
    rest = erasing.retention_proposals(desk.store, later, size=2, after=first.next).due
    assert [one.name for one in (*first.rows, *rest.rows)] == list(names)
    assert rest.next is None
    erased = [one.id for one in rest.rows]
    assert erasing.erase_proposed(desk.store, MANAGER, erased, later) == (), "whichever page he stood on"


def test_one_press_erases_those_on_the_list_and_leaves_whoever_has_stirred_since(desk: Desk) -> None:
    still, stirred = number_of(taken_down(desk)), taken_down(desk, Customer("Tobias Fell", country="GB"))
    erasing.keep_for(desk.store, MANAGER, 1, NOW)
    later = NOW + timedelta(days=62)
    listed = [one.id for one in erasing.retention_proposals(desk.store, later).due.rows]
    assert listed == [still, number_of(stirred)]
    wish = Wish(Customer("Tobias Fell", country="GB"), note="Rang again.")
    enquiring.edit_enquiry(desk.store, CLERK, stirred.id, wish, later, expected=1)
    assert erasing.erase_proposed(desk.store, MANAGER, listed, later) == (number_of(stirred),)
    assert not file_holds(desk.store, "Thornbury")
    assert len(enquiring.find_enquiries(desk.store, CLERK, later, "tobias").rows) == 1
    assert knowing.customer_page(desk.store, MANAGER, still, later).kept.erased is not None
