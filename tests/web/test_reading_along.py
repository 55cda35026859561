"""What lists say and the workshop reads: work to come without money, prices of a book, whose turn it is, names."""

from __future__ import annotations

import json

import pytest

from tests.web.conftest import OWNER, Desk, Work
from tests.web.reader import Reader
from tests.web.test_hidden_prices import amounts

WORKSHOP = ("tomasz", "oona", "idris")


@pytest.mark.parametrize("name", WORKSHOP)
def test_the_workshop_reads_what_is_to_come_and_finds_no_amount_in_it(busy_desk: Desk, worked: Work, name: str) -> None:
    reader = busy_desk.signed_in(name)
    found = reader.get("/api/work-to-come")
    numbers = [one["number"] for one in found.get_json()["work"]]
    assert worked.issued in numbers
    assert worked.draft not in numbers
    sheet = reader.get(f"/api/work-to-come/{worked.issued}")
    line = sheet.get_json()["lines"][0]
    assert (line["quantity"], line["settled"]["body"], line["standing"]["delivery"]) == (1, "roadster", "chosen")
    for answer in (found, sheet):
        assert list(amounts(answer.get_json())) == []
        assert b"1249600" not in answer.data  # its net on the list: EUR 14 200 less 12 %
    assert reader.get(f"/api/quotations/{worked.issued}").status_code == 403


def test_work_that_lapsed_is_no_longer_to_come_and_what_was_accepted_is(busy_desk: Desk, worked: Work) -> None:
    busy_desk.clock.pass_seconds(31 * 24 * 3600)
    reader = busy_desk.signed_in("tomasz")
    assert [one["number"] for one in reader.get("/api/work-to-come").get_json()["work"]] == [worked.accepted]
    assert reader.get(f"/api/work-to-come/{worked.issued}").status_code == 404


def test_work_to_come_is_found_by_its_number(busy_desk: Desk, worked: Work) -> None:
    reader = busy_desk.signed_in("oona")
    assert [one["number"] for one in reader.get(f"/api/work-to-come?q={worked.issued}").get_json()["work"]] == [
        worked.issued
    ]
    assert reader.get("/api/work-to-come?q=nobody-of-that-name").get_json()["work"] == []


def test_the_office_reads_every_list_of_a_book_and_nobody_else_any(desk: Desk) -> None:
    prices = desk.signed_in("piers").get("/api/books/1/prices").get_json()
    amounts_of = {(line["option"], line["choice"]): line["amounts"] for line in prices["lines"]}
    # The figures stand in the demo's own price lists.
    assert amounts_of["trial-fit", "our-trim"] == {"GBP": 42_000, "EUR": 50_500, "USD": 56_500}
    assert amounts_of["delivery", "van"] == {"GBP": 28_500, "EUR": None, "USD": None}
    assert [extra["amounts"]["EUR"] for extra in prices["extras"]] == [4_200, 17_500, 33_000]
    for name in (*WORKSHOP, OWNER):
        assert desk.signed_in(name).get("/api/books/1/prices").status_code == 403


def test_the_answer_says_when_it_is_ready_and_after_what(clerk: Reader) -> None:
    asked = {"specification": clerk.specification(), "price_list": "GBP", "delivery_place": {"country": "GB"}}
    ready = clerk.post("/api/answers", asked).get_json()["ready"]
    # Sub-assembly 5, then framing to ready 21, and a range of 10: the demo's own days.
    assert (ready["from_days"], ready["to_days"], ready["gates"]) == (26, 36, ["deposit", "specification"])
    window = {
        "body": "coupe",
        "series": "s2",
        "rear_window": "small",
        "hood": "none",
        "filler": "deck",
        "holes": "open",
    }
    asked["specification"] = clerk.specification(**window)
    small = clerk.post("/api/answers", asked).get_json()
    assert small["verdict"] == "once"
    # The ring's 12 run beside the sub-assembly's 5.
    assert (small["ready"]["from_days"], small["ready"]["gates"][2:]) == (33, ["parts"])


def test_what_cannot_be_built_is_never_ready(clerk: Reader) -> None:
    asked = {"specification": clerk.specification(scuttle="vented")}
    assert clerk.post("/api/answers", asked).get_json()["ready"] is None


def test_a_row_says_what_it_comes_to_and_whose_turn_it_is(busy_desk: Desk, worked: Work) -> None:
    owner = busy_desk.signed_in(OWNER, prices=True)
    rows = {row["number"]: row for row in owner.get("/api/quotations").get_json()["quotations"]}
    out, draft = rows[worked.issued], rows[worked.draft]
    shown = owner.get(f"/api/quotations/{worked.issued}/revisions/A").get_json()["totals"]["tax_cases"]
    assert out["total"]["with_tax"] == [case["with_tax"] for case in shown]
    now = owner.get(f"/api/quotations/{worked.draft}/revisions/A").get_json()["totals"]["tax_cases"]
    assert draft["total"]["with_tax"] == [case["with_tax"] for case in now]
    assert (out["waits_for"], draft["waits_for"]) == ("answer", "issue")
    hidden = json.loads(busy_desk.signed_in(OWNER).get("/api/quotations").data)["quotations"]
    assert {row["total"] for row in hidden} == {None}


def test_people_are_called_what_they_are_called(busy_desk: Desk, worked: Work) -> None:
    owner = busy_desk.signed_in(OWNER)
    quotation = owner.get(f"/api/quotations/{worked.issued}").get_json()
    assert quotation["revisions"][0]["issued_by_name"] == "Greta Lindenhof"
    assert {entry["by_name"] for entry in quotation["history"]} == {"Greta Lindenhof"}
    tools = busy_desk.signed_in("tomasz").get("/api/tools").get_json()["tools"]
    assert {tool["by_name"] for tool in tools if tool["by"]} == {"Piers Adeyemi"}
