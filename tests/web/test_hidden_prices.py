"""While a dealer's prices are hidden no amount stands in any byte of any answer: every route is looked through."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.documents.reading import figures
from tests.web.conftest import OWNER, Desk, Work
from tests.web.reader import Reader

#: Names under which an amount may stand in an answer.
AMOUNTS = {
    "amount",
    "difference",
    "list_amount",
    "adjusted",
    "discount",
    "several",
    "net",
    "lines_net",
    "tax",
    "with_tax",
    "payable",
    "deposit",
    "deposit_tax",
    "balance",
    "one",
    "all",
    "each",
    "before_tax",
}


def answers(reader: Reader, work: Work) -> Iterator[bytes]:
    """What every route that gives anything gives to this reader."""
    draft, issued = f"/api/quotations/{work.draft}", f"/api/quotations/{work.issued}"
    asked = {
        "specification": reader.specification(delivery="port", packing="frame"),
        "price_list": "EUR",
        "delivery_place": {"country": "DE"},
    }
    yield reader.post("/api/answers", asked).data
    wish = {"option": "bumpers", "choice": "impact"}
    yield reader.post("/api/reasons", {**asked, "wish": wish}).data
    yield reader.post("/api/whys", {**asked, "option": "packing"}).data
    yield reader.post("/api/alternatives", {**asked, "wish": wish}).data
    yield reader.post("/api/drawings", asked).data
    yield reader.post("/api/pictures", {**asked, "stands": {"values": {"bumpers": "impact"}}}).data
    yield reader.post("/api/donor-parts", asked).data
    yield reader.post("/api/usual", {"series": "s3", "market": "home", "body": "roadster"}).data
    for path in (
        "/api/session",
        "/api/books/current",
        "/api/books/1",
        "/api/tools",
        "/api/dealers",
        "/api/enquiries",
        f"/api/enquiries/{work.enquiry}",
        "/api/quotations",
        draft,
        f"{draft}/revisions/A",
        issued,
        f"{issued}/revisions/A",
        f"{issued}/revisions/A/paper",
        f"{draft}/revisions/A/paper",
        "/api/retail-terms",
        "/api/requests",
        "/api/open-orders",
        "/api/tokens",
        f"{issued}/revisions/A/retail",
        f"{draft}/revisions/A/retail",
        f"{issued}/revisions/A/retail-paper",
        f"{draft}/revisions/A/retail-paper?language=de",
    ):
        yield reader.get(path).data


def amounts(value: Any, name: str = "") -> Iterator[int]:
    """Every amount that stands in an answer."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from amounts(inner, key)
    elif isinstance(value, list):
        for inner in value:
            yield from amounts(inner, name)
    elif name in AMOUNTS and value:
        yield value


def shown_amounts(reader: Reader, work: Work) -> set[int]:
    import json

    found: set[int] = set()
    for answer in answers(reader, work):
        if answer.startswith(b"{"):
            found |= set(amounts(json.loads(answer)))
    return found


def test_no_amount_is_in_any_byte_while_prices_are_hidden(busy_desk: Desk, worked: Work) -> None:
    owner = busy_desk.signed_in(OWNER, prices=True)
    said = owner.put("/api/retail-terms", {"address": "Lindenhof 3", "margin": "8.5"}).get_json()
    assert said["margin"] == "8.5"
    shown = shown_amounts(owner, worked)
    assert 1_249_600 in shown  # € 14 200 less his 12 %
    assert 1_540_700 in shown  # € 14 200 and his margin
    hidden = busy_desk.signed_in(OWNER)
    papers = 0
    for answer in answers(hidden, worked):
        paper = answer.startswith(b"%PDF")
        papers += paper  # among whose bytes small figures place what is drawn
        text, least = (figures(answer), 1_000_000) if paper else (answer.decode(), 1000)
        assert [amount for amount in shown if amount >= least and str(amount) in text] == []
        assert '"8.5"' not in text
        assert "€" not in text
    assert papers == 2  # his own offers, without any sum


@pytest.mark.parametrize("name", ["tomasz", "oona", "idris"])
def test_a_role_that_sees_no_money_is_shown_none(desk: Desk, name: str) -> None:
    reader = desk.signed_in(name)
    answer = reader.post("/api/answers", {"specification": reader.specification()}).get_json()
    assert list(amounts(answer)) == []
    assert (answer["price_from"], answer["price"], answer["totals"]) == (None, None, None)
    assert reader.patch("/api/session", {"prices_shown": True}).status_code == 403


def test_a_dealers_prices_are_hidden_at_each_sign_in_and_the_switch_holds(desk: Desk) -> None:
    dealer = desk.signed_in("wade", prices=True)
    assert dealer.get("/api/session").get_json()["prices_shown"] is True
    assert desk.signed_in("wade").get("/api/session").get_json()["prices_shown"] is False
    dealer.patch("/api/session", {"prices_shown": False})
    asked = {"specification": dealer.specification(), "price_list": "USD"}
    assert list(amounts(dealer.post("/api/answers", asked).get_json())) == []


def test_a_paper_says_that_prices_are_hidden(busy_desk: Desk, worked: Work) -> None:
    answer = busy_desk.signed_in(OWNER).get(f"/api/quotations/{worked.issued}/revisions/A/paper")
    assert (answer.status_code, answer.get_json()["type"]) == (403, "/problems/prices-hidden")
