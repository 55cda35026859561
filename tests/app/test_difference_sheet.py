"""The donor car in three pictures on a sheet to be signed. What each case must show is in cases.md (2, 3 and 4)."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.documents.quotation.difference_sheet import DifferenceSheet
from app.domain.errors import BadInput, NotFound
from app.domain.quotations.enquiry import DonorCar, Intent, Picture, Source
from app.domain.quotations.pictures import Row
from app.domain.quotations.quotation import DeliveryPlace
from app.services.quotations import handing_out, papering, quoting
from app.services.quotations.enquiring import enquiry
from app.services.quotations.handing_out import imprint_of
from app.services.quotations.working_out import work_out
from tests.app.desk import CLERK, LINDENHOF, NOW, S3_ROADSTER, Desk
from tests.documents.reading import characters_outside, faults, fonts, pages, whole

CASE_2 = DonorCar(
    "T1-08390", "s1", 8390, True, "manual",
    built=Picture(said_by=Source.PLATE),
    stands=Picture({"series": "s2"}, Source.OWNER, "Registered in March 1965, so an S2."),
)  # fmt: skip
S2_ROADSTER = {"series": "s2", "market": "home", "body": "roadster", "delivery": "van"}

CASE_3 = DonorCar(
    "T3-12044", "s3", 12044, True, "manual",
    built=Picture(said_by=Source.FACTORY),
    stands=Picture({"series": "s4"}, Source.OWNER, "Shell replaced in 1994 by an S4 one."),
    intent=Intent.ANOTHER_SERIES,
)  # fmt: skip
S4_ROADSTER = {"series": "s4", "market": "home", "body": "roadster", "delivery": "van"}

CASE_4 = DonorCar(
    "T2-09001", "s2", 9001, True, "manual",
    built=Picture({"market": "north-america", "body": "roadster"}, Source.FACTORY),
    stands=Picture({"steering": "right"}, Source.OWNER, "Converted before I bought it."),
    intent=Intent.MODIFIED,
)  # fmt: skip
RIGHT_IN_AMERICA = {
    "series": "s2", "market": "north-america", "body": "roadster", "steering": "right", "packing": "frame",
    "delivery": "port",
}  # fmt: skip


def test_case_2_shows_both_facts_and_every_difference_between_the_two_series(desk: Desk) -> None:
    sheet = _sheet(desk, CASE_2, S2_ROADSTER)
    assert sheet.claimed == "s2"
    assert sheet.rows[0] == (
        Row("series", "s1", "s2", "s2"),
        Row("scuttle", "vented", "plain", "plain"),
        Row("tunnel", "narrow", "wide", "wide"),
        Row("doors", "early", "late", "late"),
    )
    text = whole(_drawn(desk, CASE_2, S2_ROADSTER))
    assert "By its identity number S1 1961" in text
    assert "As it is said to be now S2 1965" in text
    assert "The number decides what the car was built as: S1." in text
    assert "“Registered in March 1965, so an S2.”" in text


def test_case_3_shows_identity_and_the_car_as_it_stands_and_cautions_of_the_series(desk: Desk) -> None:
    sheet = _sheet(desk, CASE_3, S4_ROADSTER)
    rows = {row.option: (row.built, row.stands, row.ordered) for row in sheet.rows[0]}
    assert rows["series"] == ("s3", "s4", "s4")
    assert rows["bumpers"] == ("chrome", "impact", "impact")
    assert rows["wheel-well"] == ("deep", "shallow", "shallow")
    assert "steering" not in rows
    assert "C1" in sheet.rules[0]
    text = whole(_drawn(desk, CASE_3, S4_ROADSTER))
    assert "C1 This is not the series of your car: ask your registration authority before you order." in text
    assert "same specification as the original" not in text
    assert "Wanted: as another series was." in text


def test_case_3_ordered_as_it_was_built_still_shows_what_stands(desk: Desk) -> None:
    sheet = _sheet(desk, CASE_3, S3_ROADSTER)
    rows = {row.option: (row.built, row.stands, row.ordered) for row in sheet.rows[0]}
    assert rows["series"] == ("s3", "s4", "s3")
    assert "C1" not in sheet.rules[0]


def test_case_4_shows_the_hand_three_ways_and_the_approval_it_hangs_on(desk: Desk) -> None:
    sheet = _sheet(desk, CASE_4, RIGHT_IN_AMERICA)
    assert sheet.rows[0] == (Row("steering", "left", "right", "right"),)
    assert sheet.rules[0] == ("A1",)
    assert "Steering Left hand ≠ Right hand Right hand" in whole(_drawn(desk, CASE_4, RIGHT_IN_AMERICA))


def test_where_nobody_said_how_it_stands_the_sheet_says_so_and_guesses_nothing(desk: Desk) -> None:
    donor = DonorCar("T2-04417", "s2", 4417, True)
    sheet = _sheet(desk, donor, S3_ROADSTER)
    assert {row.stands for row in sheet.rows[0]} == {None}
    text = whole(_drawn(desk, donor, S3_ROADSTER))
    assert "Nobody has said how the car stands now." in text
    assert "Fuel filler Deck – ≠ Wing" in text


def test_a_car_that_is_not_established_has_no_picture_as_built(desk: Desk) -> None:
    assert _sheet(desk, DonorCar("T2-21301"), S3_ROADSTER).rows == ((),)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_sheet_is_one_sound_sheet_in_both_languages_on_both_sizes(desk: Desk, language: str, size: str) -> None:
    # Outside: pikepdf (qpdf) for syntax; fonts embedded as TrueType; boxes of letters by pypdfium2.
    for donor, chosen in ((CASE_2, S2_ROADSTER), (CASE_3, S4_ROADSTER), (CASE_4, RIGHT_IN_AMERICA)):
        data = _drawn(desk, donor, chosen, language, size)
        assert faults(data) == []
        assert all(fonts(data).values())
        assert characters_outside(data, margin=20) == []
        assert len(pages(data)) == 1
        assert "£" not in whole(data)


def test_an_issued_sheet_is_kept_and_stays_byte_for_byte_what_it_was(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=CASE_3))
    desk.issue(number)
    first = handing_out.difference_sheet(desk.store, CLERK, number, "A", "en", "a4", NOW)
    with desk.store.reading() as db:
        (kept,) = db.execute("SELECT pdf FROM difference_sheets").fetchone()
    assert bytes(kept) == first == handing_out.difference_sheet(desk.store, CLERK, number, "A", "en", "a4", NOW)
    assert "Name in capitals".upper() in whole(first)


def test_a_draft_s_sheet_is_not_kept_and_not_signed(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=CASE_3))
    text = whole(handing_out.difference_sheet(desk.store, CLERK, number, "A", "en", "a4", NOW))
    assert "A draft is not signed." in text
    with desk.store.reading() as db:
        assert db.execute("SELECT count(*) FROM difference_sheets").fetchone()[0] == 0


def test_another_dealer_s_sheet_is_as_if_it_were_not_there_and_a_size_nobody_makes_is_refused(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    with pytest.raises(NotFound):
        handing_out.difference_sheet(desk.store, LINDENHOF, number, "A", "en", "a4", NOW)
    with pytest.raises(BadInput):
        handing_out.difference_sheet(desk.store, CLERK, number, "A", "en", "a5", NOW)


def _sheet(desk: Desk, donor: DonorCar, chosen: dict[str, str]) -> DifferenceSheet:
    return papering.difference_sheet_of(_sheetful(desk, donor, chosen), "en", "a4")


def _drawn(desk: Desk, donor: DonorCar, chosen: dict[str, str], language: str = "en", size: str = "a4") -> bytes:
    return papering.difference_pdf(_sheetful(desk, donor, chosen), language, size)


def _sheetful(desk: Desk, donor: DonorCar, chosen: dict[str, str]) -> papering.Sheetful:
    place = DeliveryPlace("US" if chosen.get("delivery") == "port" else "GB")
    number = desk.drafted((chosen, 1), wish=desk.wish(donor=donor), place=place)
    quotation = quoting.quotation(desk.store, CLERK, number, NOW)
    revision = desk.revision(number, "A", CLERK)
    worked = work_out(desk.store, enquiry(desk.store, CLERK, quotation.enquiry), revision, NOW + timedelta(hours=1))
    with desk.store.reading() as db:
        imprint = imprint_of(db, CLERK, quotation)
    return papering.Sheetful(quotation, revision, worked, imprint, NOW, True, NOW)
