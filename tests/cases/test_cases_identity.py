"""Cases 1 and 2: what an identity number says, and what it doesn't."""

from __future__ import annotations

import pytest

from tests.cases.desk import Desk


def test_case_01_one_past_the_last_is_kept_and_not_guessed(clerk: Desk) -> None:
    reading = clerk.read_number("T2-21301")
    assert reading["reading"] == "beyond"
    assert reading["text"] == "T2-21301"
    assert reading["message"] == (
        "T2-21301 is one past the last S2 we know (T2-21300). Check the plate; a photograph helps."
    )


def test_case_01_one_before_the_first_answers_alike(clerk: Desk) -> None:
    reading = clerk.read_number("T1-00250")
    assert reading["reading"] == "beyond"
    assert "T1-00251" in reading["message"]


@pytest.mark.parametrize("typed", ["t2 4417", "T2–04417", "T2-O4417"])
def test_case_01_a_mended_number_is_offered_never_taken(clerk: Desk, typed: str) -> None:
    reading = clerk.read_number(typed)
    assert (reading["reading"], reading["offer"]) == ("mendable", "T2-04417")
    assert reading["series"] is None


def test_case_01_it_may_be_quoted_with_the_donor_not_established(clerk: Desk) -> None:
    enquiry = clerk.create(
        "/api/enquiries",
        {
            "customer": {"name": "Aldous Fenn", "trade": False, "country": "GB", "language": "en"},
            "donor": {"number_text": "T2-21301"},
        },
    )
    assert enquiry["donor"]["number_text"] == "T2-21301"
    assert enquiry["donor"]["established"] is False
    assert enquiry["donor"]["series"] is None


def test_case_02_the_number_decides_never_the_date(clerk: Desk) -> None:
    reading = clerk.read_number("T1-08390")
    assert (reading["reading"], reading["series"], reading["number"]) == ("identified", "s1", 8390)


def test_case_02_the_two_series_differ_where_the_book_says(clerk: Desk) -> None:
    s1 = clerk.usual(series="s1", market="home", body="roadster")
    s2 = clerk.usual(series="s2", market="home", body="roadster")
    differing = {option for option in s1 if s1[option] != s2[option]}
    assert differing == {"series", "scuttle", "tunnel", "doors"}
