"""Which tax cases a delivery falls under: VAT follows where the goods go.

Sources: VAT Notice 703, VEXP20200, VEXP30300; the category codes are EN 16931's (UNCL5305). The islands: practice. A
licensed accountant has the last word, and every case says so.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from babel import Locale
from hypothesis import given
from hypothesis import strategies as st

from rules.money.countries import COUNTRIES
from rules.money.tax import (
    ACCOUNTANT,
    CAUTIONS,
    EVIDENCE,
    MAINLAND_ONLY,
    PERSON_DECIDES,
    REASONS,
    REFUSALS,
    TaxCase,
    TaxRefusal,
    tax_cases,
)
from tests.rules.money.small_book import BOOK, TODAY, cases


def _kinds(found: tuple[TaxCase, ...]) -> list[tuple[str, str, int]]:
    return [(case.kind, case.category, int(case.percent)) for case in found]


EXPORT, STANDARD = ("export", "G", 0), ("standard", "S", 20)


def test_collected_by_a_home_customer_is_taxed() -> None:
    assert _kinds(cases("collected", None, "GB")) == [STANDARD]


def test_collected_by_a_customer_from_abroad_shows_both_and_a_person_decides() -> None:
    found = cases("collected", None, "DE")
    assert _kinds(found) == [EXPORT, STANDARD]
    assert all(PERSON_DECIDES in case.cautions for case in found)
    assert EVIDENCE in found[0].cautions


def test_collected_by_a_home_customer_to_go_abroad_is_not_decided_in_silence() -> None:
    assert _kinds(cases("collected", "FR", "GB")) == [EXPORT, STANDARD]


@pytest.mark.parametrize("customer", ["GB", "DE", "US"])
def test_delivered_at_home_is_taxed_whoever_pays(customer: str) -> None:
    assert _kinds(cases("van", "GB", customer)) == [STANDARD]


def test_our_van_says_mainland_only_while_the_region_is_open() -> None:
    assert MAINLAND_ONLY in cases("van", "GB", "GB")[0].cautions
    assert MAINLAND_ONLY not in cases("van", "GB", "GB", "ME13 7AA")[0].cautions


@pytest.mark.parametrize("customer", ["GB", "DE"])
def test_sent_abroad_by_us_is_an_export_bound_to_its_evidence(customer: str) -> None:
    (case,) = cases("door-germany", "DE", customer)
    assert case == TaxCase("export", "G", Decimal(0), "export", (EVIDENCE, ACCOUNTANT))


def test_a_choice_that_names_its_country_needs_no_place() -> None:
    assert _kinds(cases("door-germany", None, "DE")) == [EXPORT]


def test_every_case_asks_for_the_accountant() -> None:
    found = [*cases("collected", None, "GB"), *cases("collected", None, "ZA"), *cases("port", "US", "US")]
    assert all(ACCOUNTANT in case.cautions for case in found)


@pytest.mark.parametrize(
    ("delivery", "country", "fitting"),
    [
        # to the door in Germany, yet the place is in France: the port or elsewhere would fit
        ("door-germany", "FR", ("port", "door-elsewhere")),
        # our van, to Germany: the door first, then what goes anywhere
        ("van", "DE", ("door-germany", "port", "door-elsewhere")),
        # shipped abroad, to the home country
        ("port", "GB", ("van",)),
        ("door-germany", "GB", ("van",)),
    ],
)
def test_a_delivery_that_contradicts_its_place_is_refused_and_says_what_fits(
    delivery: str, country: str, fitting: tuple[str, ...]
) -> None:
    refusal = tax_cases(BOOK, delivery, country, None, "GB", TODAY)
    assert isinstance(refusal, TaxRefusal)
    assert (refusal.why, refusal.fitting) == ("not-to-that-country", fitting)
    assert (refusal.fields["choice"], refusal.fields["country"]) == (delivery, country)


@pytest.mark.parametrize(
    ("delivery", "country", "region", "why"),
    [
        # ISO 3166-2 with and without the country, and a postcode
        ("van", "GB", "GB-NIR", "northern-ireland"),
        ("van", "GB", "NIR", "northern-ireland"),
        ("van", "GB", "BT1 5GS", "northern-ireland"),
        ("port", "GB", "bt1 5gs", "northern-ireland"),
        # the Isle of Man, Jersey and Guernsey have country codes of their own
        ("van", "IM", None, "off-the-mainland"),
        ("van", "JE", None, "off-the-mainland"),
        ("van", "GG", None, "off-the-mainland"),
        ("van", "GB", "off-mainland", "off-the-mainland"),
        # Jersey written as if it were of the United Kingdom; the Hebrides
        ("van", "GB", "JE2 3AB", "off-the-mainland"),
        ("van", "GB", "HS1 2AA", "off-the-mainland"),
    ],
)
def test_off_the_mainland_is_not_offered(delivery: str, country: str, region: str | None, why: str) -> None:
    refusal = tax_cases(BOOK, delivery, country, region, "GB", TODAY)
    assert isinstance(refusal, TaxRefusal)
    assert refusal.why == why


@pytest.mark.parametrize("island", ["GG", "IM", "JE"])
def test_sent_to_the_islands_shows_both_and_a_person_decides(island: str) -> None:
    found = cases("door-elsewhere", island, "GB")
    assert _kinds(found) == [EXPORT, STANDARD]
    assert {case.reason for case in found} == {"islands"}


def test_a_postcode_that_only_begins_like_northern_irelands_is_the_mainland() -> None:
    # B is Birmingham, BTX no postcode area
    assert _kinds(cases("van", "GB", "GB", "B1 1TT")) == [STANDARD]
    assert _kinds(cases("van", "GB", "GB", "BTX")) == [STANDARD]


@pytest.mark.parametrize(
    ("delivery", "country", "customer", "why"),
    [
        (None, "GB", "GB", "delivery-open"),
        ("balloon", "GB", "GB", "delivery-unknown"),
        ("van", None, "GB", "place-open"),
        ("port", None, "US", "place-open"),
        ("port", " ", "US", "place-open"),
        # a code that no country has must not pass for one abroad: UK is not the code of the United Kingdom
        ("port", "UK", "GB", "country-unknown"),
        ("door-elsewhere", "ZZ", "GB", "country-unknown"),
        ("collected", None, "UK", "country-unknown"),
        ("collected", None, None, "customer-country-open"),
    ],
)
def test_what_is_not_known_is_asked_for_never_supposed(
    delivery: str | None, country: str | None, customer: str | None, why: str
) -> None:
    refusal = tax_cases(BOOK, delivery, country, None, customer, TODAY)
    assert isinstance(refusal, TaxRefusal)
    assert refusal.why == why


def test_what_is_asked_for_is_named() -> None:
    assert tax_cases(BOOK, "port", "UK", None, "GB", TODAY) == TaxRefusal("country-unknown", {"country": "UK"})
    assert tax_cases(BOOK, "collected", None, None, "ZZ", TODAY) == TaxRefusal("country-unknown", {"country": "ZZ"})
    assert tax_cases(BOOK, "port", None, None, "US", TODAY) == TaxRefusal("place-open", {"choice": "port"})


def test_a_taxed_delivery_says_why() -> None:
    assert [case.reason for case in cases("van", "GB", "GB", "SW1A 1AA")] == ["delivered-at-home"]


@pytest.mark.parametrize(
    ("day", "percent"),
    # from memory: in the United Kingdom 15 from December 2008, 17.5 in 2010, 20 from 4 January 2011; this
    # book leaves the middle one out
    [(date(2008, 12, 1), 15), (date(2011, 1, 3), 15), (date(2011, 1, 4), 20), (TODAY, 20)],
)
def test_the_rate_is_that_of_the_day(day: date, percent: int) -> None:
    found = tax_cases(BOOK, "van", "GB", None, "GB", day)
    assert not isinstance(found, TaxRefusal)
    assert [int(case.percent) for case in found] == [percent]


def test_before_the_first_rate_there_is_none() -> None:
    refusal = tax_cases(BOOK, "van", "GB", None, "GB", date(2008, 11, 30))
    assert refusal == TaxRefusal("no-rate", {"day": "2008-11-30"})


def test_the_country_codes_are_those_of_iso_3166() -> None:
    # Babel's territories (Unicode CLDR) are the ISO 3166-1 codes and fifteen more that CLDR lists beside them
    beside = {"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "XK", "ZZ"}
    two_letters = {code for code in map(str, Locale("en").territories) if len(code) == 2}
    assert two_letters - beside == COUNTRIES
    assert len(COUNTRIES) == 249


PLACES = st.sampled_from(["GB", "gb", "DE", "US", "JE", "IM", "GG", "UK", "ZZ", "", " ", None])


@given(
    delivery=st.sampled_from(["collected", "van", "port", "door-germany", "door-elsewhere", None, "balloon"]),
    country=PLACES,
    region=st.sampled_from([None, "NIR", "BT1 5GS", "off-mainland", "JE2", "SW1A 1AA", "de-by"]),
    customer=PLACES,
)
def test_nothing_is_untaxed_in_silence(
    delivery: str | None, country: str | None, region: str | None, customer: str | None
) -> None:
    found = tax_cases(BOOK, delivery, country, region, customer, TODAY)
    if isinstance(found, TaxRefusal):
        assert found.why in REFUSALS
        return
    assert {case.reason for case in found} <= set(REASONS)
    assert {caution for case in found for caution in case.cautions} <= set(CAUTIONS)
    untaxed = [case for case in found if not case.percent]
    assert all(EVIDENCE in case.cautions for case in untaxed)
    if untaxed and len(found) == 1:
        assert delivery in ("port", "door-germany", "door-elsewhere")
        assert (country or "DE").strip().upper() in ("DE", "US", "")
