"""Case 5: one donor car and two customers; and of case 16 what a price list that isn't there is answered with."""

from __future__ import annotations

import pytest

from tests.cases.desk import Desk, private, quote, trade
from tests.support.product import Product

#: The donor car of case 5.
CAR = {"number_text": "T3-30110", "series": "s3", "number": 30110, "established": True, "gearbox": "manual"}
ELSEWHERE = "/api/donor-elsewhere?number={number}&enquiry={enquiry}"

ROADSTER = {"series": "s3", "market": "home", "body": "roadster"}


@pytest.fixture(scope="module")
def lindenhof(server: Product) -> Desk:
    return Desk(server.url, "greta", server.passwords["greta"])


@pytest.fixture(scope="module")
def owner(clerk: Desk) -> str:
    """The number of a private owner's quotation, out for that car."""
    quoted = quote(clerk, private(name="Rosamund Tarr"), donor=CAR)
    quoted.fill((clerk.usual(**ROADSTER), 1))
    quoted.issue()
    return quoted.number


@pytest.fixture(scope="module")
def dealers(lindenhof: Desk, owner: str) -> int:
    """The id of the enquiry that a dealer takes down for the same car."""
    customer = {"name": "Kilian Moosbrugger", "trade": True, "country": "DE", "language": "de"}
    enquiry = lindenhof.create("/api/enquiries", {"customer": customer, "donor": CAR})
    return int(enquiry["id"])


def test_case_05_the_clerk_is_told_on_which_quotation_the_donor_is(clerk: Desk, owner: str, dealers: int) -> None:
    found = clerk.get(ELSEWHERE.format(number="T3-30110", enquiry=dealers))["quotations"]
    (told,) = [one for one in found if one["number"] == owner]
    assert (told["letter"], told["state"]) == ("A", "issued")
    assert told["issued_at"] is not None
    assert told["customer"] == "Rosamund Tarr"


def test_case_05_the_owner_s_own_enquiry_is_no_warning_to_him(clerk: Desk, owner: str) -> None:
    own = clerk.get(f"/api/quotations/{owner}")["enquiry"]
    numbers = [one["number"] for one in clerk.get(ELSEWHERE.format(number="T3-30110", enquiry=own))["quotations"]]
    assert owner not in numbers


@pytest.mark.parametrize("number", ["T3-30110", "T3-30111", "nonsense"])
def test_case_05_the_dealer_is_told_nothing_whatever_he_asks(
    lindenhof: Desk, owner: str, dealers: int, number: str
) -> None:
    refused = lindenhof.send("GET", ELSEWHERE.format(number=number, enquiry=dealers), expect=403)
    assert refused == lindenhof.send("GET", ELSEWHERE.format(number="T1-00251", enquiry=1), expect=403)
    assert owner not in str(lindenhof.get(f"/api/enquiries/{dealers}"))
    assert owner not in str(lindenhof.get("/api/quotations?q=T3-30110"))


def test_case_05_it_is_a_warning_and_not_a_bar(lindenhof: Desk, owner: str, dealers: int) -> None:
    body = {"price_list": "EUR", "delivery_place": {"country": "DE"}}
    assert lindenhof.create(f"/api/enquiries/{dealers}/quotations", body)["state"] == "draft"


def test_case_16_there_is_no_list_in_rand_and_karoo_road_is_quoted_in_pounds(clerk: Desk) -> None:
    customer = trade("karoo-road", "ZA", "Karoo Road Restorations")
    enquiry = clerk.create("/api/enquiries", {"customer": customer, "donor": {}})
    wanted = {"price_list": "ZAR", "delivery_place": {"country": "ZA"}}
    headers = {"Idempotency-Key": "case-16-in-rand"}
    refused = clerk.send("POST", f"/api/enquiries/{enquiry['id']}/quotations", wanted, headers, expect=422)
    assert refused["errors"] == {"price_list": ["There is no ZAR list; Karoo Road Restorations is quoted in GBP."]}
    (karoo_road,) = [one for one in clerk.get("/api/dealers")["dealers"] if one["id"] == "karoo-road"]
    assert karoo_road["price_list"] == "GBP"
