"""Photographs against a donor car: kept with the enquiry, seen by who may see it, handed out, erased, pointed to."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from io import BytesIO
from zipfile import ZipFile

import pytest

from app.domain.asking.people import Person
from app.domain.errors import BadInput, NotFound, PhotographPointedAt
from app.domain.quotations.enquiry import DonorCar, Enquiry, Picture, Source, Wish
from app.domain.quotations.photograph import Photograph, Shows
from app.services.customers import disclosing, erasing
from app.services.quotations import enquiring, handing_out, photographing
from tests.app.desk import CLERK, HOLLIN, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk
from tests.app.test_ordering import ordered
from tests.documents.reading import whole
from tests.documents.test_photograph import file

LATER = NOW + timedelta(hours=1)


def added(
    desk: Desk, enquiry: int, shows: Shows = Shows.PLATE, part: str = "", note: str = "", who: Person = CLERK
) -> Photograph:
    return photographing.add(desk.store, who, enquiry, file("PNG"), shows, part, note, NOW)


def pointing(enquiry: Enquiry, photograph: int | None, said_by: Source | None = Source.PLATE) -> Wish:
    built = Picture(said_by=said_by, photograph=photograph)
    return Wish(enquiry.customer, replace(enquiry.donor, built=built), enquiry.wanted_by, enquiry.note)


def changed(desk: Desk, enquiry: Enquiry, wish: Wish) -> Enquiry:
    return enquiring.edit_enquiry(desk.store, CLERK, enquiry.id, wish, LATER, expected=enquiry.version)


def test_it_is_kept_with_who_added_it_when_and_what_it_shows(desk: Desk) -> None:
    enquiry = desk.take_down()
    made = added(desk, enquiry.id, Shows.PART, "P1", "Left flange")
    assert (made.shows, made.part, made.note, made.by, made.at) == (Shows.PART, "P1", "Left flange", "imogen", NOW)
    assert photographing.photographs_of(desk.store, CLERK, enquiry.id) == (made,)
    jpeg = photographing.content(desk.store, CLERK, enquiry.id, made.id, small=False)
    assert (jpeg[:3], len(jpeg)) == (b"\xff\xd8\xff", made.size)


def test_a_dealer_has_his_own_and_sees_nobody_elses(desk: Desk) -> None:
    enquiry = desk.take_down(HOLLIN)
    made = added(desk, enquiry.id, who=HOLLIN)
    assert photographing.photographs_of(desk.store, CLERK, enquiry.id) == (made,)
    for refused in (
        lambda: photographing.photographs_of(desk.store, LINDENHOF, enquiry.id),
        lambda: photographing.content(desk.store, LINDENHOF, enquiry.id, made.id, small=True),
        lambda: photographing.remove(desk.store, LINDENHOF, enquiry.id, made.id, NOW),
        lambda: added(desk, enquiry.id, who=LINDENHOF),
    ):
        with pytest.raises(NotFound):
            refused()


def test_a_photograph_of_another_enquiry_is_not_found_under_this_one(desk: Desk) -> None:
    one, other = desk.take_down(), desk.take_down()
    made = added(desk, one.id)
    with pytest.raises(NotFound):
        photographing.content(desk.store, CLERK, other.id, made.id, small=False)


@pytest.mark.parametrize(
    ("sent", "code"),
    [(b"\0\0\0\x18ftypheic", "picture-heic"), (b"%PDF-1.4", "picture-scan-broken"), (b"MZ", "picture-other")],
)
def test_what_cant_be_taken_is_refused_with_why_and_nothing_is_kept(desk: Desk, sent: bytes, code: str) -> None:
    enquiry = desk.take_down()
    with pytest.raises(BadInput) as refused:
        photographing.add(desk.store, CLERK, enquiry.id, sent, Shows.CAR, "", "", NOW)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("file", code)]
    assert photographing.photographs_of(desk.store, CLERK, enquiry.id) == ()


def test_a_part_s_photograph_names_a_part_that_the_book_asks_for(desk: Desk) -> None:
    enquiry = desk.take_down()
    for part, code in (("", "required"), ("N1", "not-one-of")):
        with pytest.raises(BadInput) as refused:
            added(desk, enquiry.id, Shows.PART, part)
        assert [(fault.path, fault.code) for fault in refused.value.faults] == [("part", code)]


def test_who_says_so_points_to_a_photograph_of_this_car_that_shows_it(desk: Desk) -> None:
    enquiry, other = desk.take_down(), desk.take_down()
    plate, car, foreign = added(desk, enquiry.id), added(desk, enquiry.id, Shows.CAR), added(desk, other.id)
    for wish, code in (
        (pointing(enquiry, foreign.id), "not-of-this-car"),
        (pointing(enquiry, car.id), "shows-another"),
        (pointing(enquiry, plate.id, None), "shows-another"),
    ):
        with pytest.raises(BadInput) as refused:
            changed(desk, enquiry, wish)
        assert [(fault.path, fault.code) for fault in refused.value.faults] == [("donor.built.photograph", code)]
    assert changed(desk, enquiry, pointing(enquiry, plate.id)).donor.built.photograph == plate.id


def test_what_is_pointed_to_is_not_taken_out_until_another_is(desk: Desk) -> None:
    enquiry = desk.take_down()
    plate = added(desk, enquiry.id)
    after = changed(desk, enquiry, pointing(enquiry, plate.id))
    with pytest.raises(PhotographPointedAt):
        photographing.remove(desk.store, CLERK, enquiry.id, plate.id, LATER)
    changed(desk, after, pointing(after, None))
    photographing.remove(desk.store, CLERK, enquiry.id, plate.id, LATER)
    assert photographing.photographs_of(desk.store, CLERK, enquiry.id) == ()


def test_the_difference_sheet_names_the_photograph_that_says_so(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=DonorCar("T3-12044", "s3", 12044, True)))
    with desk.store.reading() as db:
        (of,) = db.execute("SELECT enquiry FROM quotations WHERE number = ?", [number]).fetchone()
    enquiry = enquiring.enquiry(desk.store, CLERK, of)
    plate = added(desk, enquiry.id)
    changed(desk, enquiry, pointing(enquiry, plate.id))
    desk.issue(number, at=LATER)
    text = whole(handing_out.difference_sheet(desk.store, CLERK, number, "A", "en", "a4", LATER))
    assert f"(photograph {plate.id})" in text


def test_all_that_is_held_on_a_customer_holds_his_photographs(desk: Desk) -> None:
    enquiry = desk.take_down()
    made = added(desk, enquiry.id, note="Taken by his wife")
    assert enquiry.customer.id is not None
    archive = ZipFile(BytesIO(disclosing.everything_on(desk.store, CLERK, enquiry.customer.id, LATER)))
    kept = photographing.content(desk.store, CLERK, enquiry.id, made.id, small=False)
    assert archive.read(f"photographs/{made.id}.jpg") == kept
    assert "Taken by his wife" in archive.read("data.json").decode()


def erase(desk: Desk, customer: int) -> erasing.Outlook:
    told = erasing.outlook(desk.store, MANAGER, customer)
    erasing.erase(desk.store, MANAGER, customer, "asked for it", told.seen, LATER)
    return told


def test_erasing_takes_them_out_where_nothing_was_ordered(desk: Desk) -> None:
    enquiry = desk.take_down()
    plate = added(desk, enquiry.id)
    after = changed(desk, enquiry, pointing(enquiry, plate.id))
    assert after.customer.id is not None
    assert erase(desk, after.customer.id).reach.goes["photographs"] == (str(plate.id),)
    with desk.store.reading() as db:
        tables = ("photographs", "photograph_files")
        assert [db.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in tables] == [0, 0]


def test_what_an_order_rests_on_stays(desk: Desk) -> None:
    order = ordered(desk, (S3_ROADSTER, 1))
    with desk.store.reading() as db:
        sql = "SELECT enquiry, customer FROM quotations JOIN enquiries ON enquiries.id = enquiry WHERE number = ?"
        of, customer = db.execute(sql, [order.quotation]).fetchone()
    made = added(desk, of, note="Taken by his wife")
    assert erase(desk, customer).reach.stays["photographs"] == (str(made.id),)
    (kept,) = photographing.photographs_of(desk.store, CLERK, of)
    assert (kept.id, kept.note) == (made.id, "")
