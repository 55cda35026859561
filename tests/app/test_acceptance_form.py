"""The order form: what the customer signs, with number, sum, dates, differences and cautions; kept as it went out."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.domain.quotations.enquiry import DonorCar, Picture, Source
from app.domain.quotations.quotation import DeliveryPlace
from app.services.books import publishing
from app.services.quotations import handing_out
from demo.loading import BOOK
from tests.app.desk import BAYOU, CLERK, MANAGER, NOW, S3_ROADSTER, Desk
from tests.documents.reading import characters_outside, faults, fonts, pages, whole

#: Case 2: by its number S1, said to be S2.
CASE_2 = DonorCar(
    "T1-08390", "s1", 8390, True, "manual",
    built=Picture(said_by=Source.PLATE), stands=Picture({"series": "s2"}, Source.OWNER),
)  # fmt: skip
S2_ROADSTER = {"series": "s2", "market": "home", "body": "roadster", "delivery": "van"}


def form(desk: Desk, number: str, language: str = "en", size: str = "a4", days: int = 0) -> bytes:
    return handing_out.acceptance_form(desk.store, CLERK, number, "A", language, size, NOW + timedelta(days=days))


def issued(desk: Desk) -> str:
    number = desk.drafted((S2_ROADSTER, 1), wish=desk.wish(donor=CASE_2))
    desk.issue(number)
    return number


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_it_is_a_sound_pdf_in_every_language_on_every_size(desk: Desk, language: str, size: str) -> None:
    pdf = form(desk, issued(desk), language, size)
    assert (faults(pdf), characters_outside(pdf, margin=20)) == ([], [])
    assert fonts(pdf)
    assert len(pages(pdf)) == 2


def test_it_says_what_the_signature_is_for(desk: Desk) -> None:
    """An S2 has its holes blanked: 11 850 + 60 + 240 + 285 = 12 435.00, with tax 14 922.00."""
    number = issued(desk)
    text = whole(form(desk, number))
    for words in (
        f"Accepts quotation {number}, revision A",
        "£14,922.00",
        "£3,730.50",
        "your deposit is cleared",
        "Tunnel Narrow ≠ Wide",
        f"I order by quotation {number}, revision A.",
        "This form orders; it is no confirmation.",
        "on what terms an order may be cancelled, is set out in the firm’s terms of sale",
        "Registration and identity: rules differ by country and change.",
        "by midnight at the end of 2 December 2026 (London time)",
    ):
        assert words in text, words
    german = whole(form(desk, number, "de"))
    assert f"Nimmt Angebot {number}, Revision A, an" in german
    assert "14.922,00 £" in german


def test_for_america_it_speaks_of_dollars_pounds_and_inches(desk: Desk) -> None:
    chosen = {**S3_ROADSTER, "market": "north-america", "packing": "crate", "delivery": "port"}
    wish = desk.wish(country="US", units="imperial")
    number = desk.drafted((chosen, 1), who=BAYOU, wish=wish, price_list="USD", place=DeliveryPlace("US"))
    desk.issue(number, who=BAYOU)
    text = whole(form(desk, number, size="letter"))
    assert "$" in text
    assert "4100 × 1750 × 1400 mm (161.4 × 68.9 × 55.1 in)" in text
    assert "Dated November 2, 2026" in text


def test_it_is_kept_byte_for_byte_whatever_is_published_later(desk: Desk) -> None:
    number = issued(desk)
    first = form(desk, number)
    text = BOOK.read_text(encoding="utf-8").replace("11 850", "12 100", 1)
    publishing.publish_book(desk.store, MANAGER, text, NOW + timedelta(days=1))
    assert form(desk, number, days=400) == first


def test_without_a_donor_car_there_is_nothing_to_differ_from(desk: Desk) -> None:
    number = desk.drafted((S2_ROADSTER, 1))
    desk.issue(number)
    text = whole(form(desk, number))
    assert "differs from" not in text
    assert "the cautions above" in text


def test_nobody_signs_a_draft(desk: Desk) -> None:
    text = whole(form(desk, desk.drafted((S2_ROADSTER, 1))))
    assert "A draft can’t be accepted." in text
    assert "Name in capitals" not in text
