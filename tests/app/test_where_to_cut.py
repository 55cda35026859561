"""The sheet "Where to cut", and what a quotation says of the donor's parts. Needed parts: scenario.md, P1 to P4."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from app.documents.drawings.sketch import margins_of, sketch_of
from app.domain.errors import BadInput, NotFound
from app.domain.quotations.quotation import DeliveryPlace
from app.services.books.publishing import current_book
from app.services.customers import erasing
from app.services.quotations import handing_out
from app.services.quotations.enquiring import enquiry
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk
from tests.documents.reading import characters_outside, faults, fonts, pages, whole

S1_ROADSTER = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "plain", "delivery": "van"}
SMALL_WINDOW = {
    "series": "s2", "market": "europe", "body": "coupe", "rear-window": "small", "own-doors": "yes", "packing": "crate",
    "delivery": "door-germany",
}  # fmt: skip


def sheet(desk: Desk, number: str, language: str = "en", size: str = "a4") -> bytes:
    return handing_out.where_to_cut(desk.store, CLERK, number, "A", language, size, NOW)


def out(desk: Desk, chosen: dict[str, str], country: str = "GB", **customer: Any) -> str:
    number = desk.drafted((chosen, 1), wish=desk.wish(country=country, **customer), place=DeliveryPlace(country))
    desk.issue(number)
    return number


def test_the_sheet_says_margins_what_stays_whole_limits_and_steps(desk: Desk) -> None:
    text = whole(sheet(desk, out(desk, S1_ROADSTER)))
    assert "Measure before you cut." in text
    assert "P1 · Original narrow tunnel" in text
    assert "leave on at least: front 80 mm, rear 80 mm, left 60 mm, right 60 mm" in text
    assert "Flange flat within 2 mm." in text
    assert "Must be here and have passed before: Framing jig" in text
    assert "in)" not in text


def test_a_reader_of_inches_gets_them_beside_the_millimetres(desk: Desk) -> None:
    # 25.4 mm to the inch (international yard and pound, 1959): 150/25.4 = 5.9055, 1.5/25.4 = 0.05906
    text = whole(sheet(desk, out(desk, SMALL_WINDOW, "DE", units="imperial")))
    assert "150\xa0mm (5.91\xa0in)".replace("\xa0", " ") in text.replace("\xa0", " ")
    assert "1.5 mm (0.059 in)" in text.replace("\xa0", " ")
    assert "Millimetres bind" in text


def test_doors_are_not_cut_and_travel_with_their_hinges(desk: Desk) -> None:
    text = whole(sheet(desk, out(desk, SMALL_WINDOW, "DE"), "de", "letter"))
    assert "Keine: Es wird ganz abgenommen." in text
    assert "Mitzuschicken: Türscharniere mit ihren Beilagen und die Türdichtungen" in text


def test_a_shell_that_needs_nothing_says_so(desk: Desk) -> None:
    assert "nothing is to be cut" in whole(sheet(desk, out(desk, S3_ROADSTER | {"delivery": "van"})))


def test_a_draft_says_that_nothing_is_to_be_cut_yet_and_is_not_kept(desk: Desk) -> None:
    number = desk.drafted((S1_ROADSTER, 1))
    assert "Cut nothing yet" in whole(sheet(desk, number))
    with desk.store.reading() as db:
        assert db.execute("SELECT count(*) FROM cut_sheets").fetchone()[0] == 0


def test_what_went_out_is_kept_and_served_as_it_was(desk: Desk) -> None:
    number = out(desk, S1_ROADSTER)
    first = sheet(desk, number)
    with desk.store.reading() as db:
        (kept,) = db.execute("SELECT pdf FROM cut_sheets").fetchone()
    assert bytes(kept) == first == sheet(desk, number)


def test_another_dealer_and_a_size_that_there_is_none_in_are_refused(desk: Desk) -> None:
    number = out(desk, S1_ROADSTER)
    with pytest.raises(NotFound):
        handing_out.where_to_cut(desk.store, LINDENHOF, number, "A", "en", "a4", NOW)
    with pytest.raises(BadInput):
        sheet(desk, number, size="a5")


def test_erasing_a_customer_takes_the_sheet_with_him(desk: Desk) -> None:
    number = out(desk, S1_ROADSTER)
    sheet(desk, number)
    with desk.store.reading() as db:
        (of,) = db.execute("SELECT enquiry FROM quotations WHERE number = ?", [number]).fetchone()
    customer = enquiry(desk.store, CLERK, of).customer.id
    assert customer is not None
    told = erasing.outlook(desk.store, MANAGER, customer)
    erasing.erase(desk.store, MANAGER, customer, "asked for it", told.seen, NOW + timedelta(hours=1))
    with desk.store.reading() as db:
        assert db.execute("SELECT count(*) FROM cut_sheets").fetchone()[0] == 0


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_sheet_is_lettered_in_our_faces_and_stays_within_its_border(desk: Desk, language: str) -> None:
    pdf = sheet(desk, out(desk, SMALL_WINDOW, "DE"), language)
    assert len(pages(pdf)) >= 2
    assert faults(pdf) == []
    assert characters_outside(pdf, margin=20) == []
    assert all(fonts(pdf).values())
    assert "€" not in whole(pdf)


def test_the_quotation_lists_what_to_send_and_what_to_keep(desk: Desk) -> None:
    number = out(desk, S1_ROADSTER)
    text = whole(handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW))
    assert "What to keep when the donor is stripped" in text
    assert "P1 Original narrow tunnel What you must send us, before: Framing jig" in text
    assert "Strikers of the early latch" in text
    assert "dash with its brackets" in text
    assert "Impact bumpers with their struts" not in text


def test_a_margin_is_drawn_on_each_side_that_has_one(desk: Desk) -> None:
    cut = current_book(desk.store, NOW).cut("P4")
    assert cut is not None
    assert margins_of(cut) == dict.fromkeys(("left", "right", "below", "above"), 150)
    drawn = sketch_of(cut, "window ring", "en", lambda mm: f"{mm} mm")
    assert drawn is not None
    assert [part.element for part in drawn.parts] == [
        "spare",
        "part",
        "cut/left",
        "cut/right",
        "cut/below",
        "cut/above",
    ]
    assert drawn.lines[0] == "Cut line left: at least 150 mm beyond the part"
    for part in drawn.parts:
        xs = [point[0] for stroke in part.strokes for point in stroke.points()]
        ys = [point[1] for stroke in part.strokes for point in stroke.points()]
        assert not xs or (min(xs) >= 0 and max(xs) <= drawn.width and min(ys) >= 0 and max(ys) <= drawn.height)
        for letters in part.letters:
            assert 0 <= letters.at[0] <= drawn.width - len(letters.text) * letters.size * 0.5
            assert letters.size <= letters.at[1] <= drawn.height
