"""Cases 12, 13, 14, 16, 17, 22, 23: what the yes makes, what is paid for it, and the documents, to the penny."""

from __future__ import annotations

import csv
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from uuid import uuid4

import pytest

from app.wording import say
from tests.cases.desk import Desk, private, quote
from tests.cases.ordered import Ordered, accept, ordered, revised
from tests.cases.test_cases_money import BAYOU_ROAD, HOLLIN_LANE, LINDENHOF, bayou_road_roadster, lindenhof_coupe, shell
from tests.support.product import Product

KAROO_ROAD = {
    "name": "Karoo Road Restorations",
    "trade": True,
    "country": "ZA",
    "language": "en",
    "dealer": "karoo-road",
}


@pytest.fixture(scope="module")
def manager(server: Product) -> Desk:
    return Desk(server.url, "piers", server.passwords["piers"])


def case_12(desk: Desk) -> Ordered:
    return ordered(quote(desk, private()), (shell(desk, delivery="van"), 1))


def case_15(desk: Desk) -> Ordered:
    return ordered(quote(desk, LINDENHOF, price_list="EUR", to="DE"), (lindenhof_coupe(desk), 1))


def sums(document: Any) -> tuple[int, int, int]:
    return document["net"], document["tax"], document["with_tax"]


def test_case_12_the_deposit_is_a_document_at_its_own_tax_point(clerk: Desk) -> None:
    order = case_12(clerk)
    assert (order.read()["state"], order.read()["confirmed"]) == ("planned", False)
    document = order.deposit(3_712_50, "GBP", "2026-11-20")
    assert (document["kind"], document["tax_point"]) == ("deposit", "2026-11-20")
    assert sums(document) == (3_093_75, 618_75, 3_712_50)
    account = order.read()["account"]
    assert (account["short"], account["due"]) == (0, 11_137_50)
    assert gate(order, "deposit") is True
    for paper in document["papers"]:
        assert clerk.http.get(clerk.url + paper["url"]).content.startswith(b"%PDF")
    assert b"InvoiceTypeCode>386<" in clerk.http.get(clerk.url + document["ubl"]).content


def test_case_13_the_deposit_s_tax_to_the_half_penny(clerk: Desk) -> None:
    order = ordered(quote(clerk, HOLLIN_LANE), (shell(clerk), 3))
    assert [len(line["shells"]) for line in order.read()["lines"]] == [3]
    assert sums(order.deposit(9_009_29, "GBP")) == (7_507_74, 1_501_55, 9_009_29)
    balance = order.invoice()
    assert (sums(balance), balance["payable"]) == ((30_030_96, 6_006_19, 36_037_15), 27_027_86)


def test_case_14_what_dropping_the_third_shell_costs_is_said_before_the_order_follows_it(clerk: Desk) -> None:
    order = ordered(quote(clerk, HOLLIN_LANE), (shell(clerk), 3))
    letter = revised(order, (shell(clerk), 2))
    out = order.read()
    assert (out["letter"], out["pending"]["letter"], out["pending"]["payable"]) == ("A", "B", 24_750_00)
    assert [moved["says"] for moved in out["pending"]["moved"]] == [
        "The 2 that remain cost £302.18 more each before tax, £362.62 with tax."
    ]
    accept(order.quoted, letter)
    read = order.read()
    assert read["pending"] is None
    assert (read["letter"], read["followed"], read["account"]["payable"]) == ("B", ["A", "B"], 24_750_00)
    assert [len(line["shells"]) for line in read["lines"]] == [2]


def test_case_17_the_deposit_in_dollars(clerk: Desk) -> None:
    order = ordered(quote(clerk, BAYOU_ROAD, price_list="USD", to="US"), (bayou_road_roadster(clerk), 1))
    document = order.deposit(3_748_63, "USD")
    assert (sums(document), document["currency"]) == ((3_748_63, 0, 3_748_63), "USD")
    assert order.read()["account"]["due"] == 11_245_87
    assert {paper["size"] for paper in document["papers"] if paper["own"]} == {"letter"}


def test_case_16_pounds_for_a_deposit_in_euro(clerk: Desk, manager: Desk) -> None:
    order = case_15(clerk)
    assert order.read()["account"]["deposit"] == 5_584_60
    (payment,) = order.pay(4_800_00, "GBP")["payments"]
    assert (payment["amount"], payment["currency"], payment["counts_for"]) == (4_800_00, "GBP", None)
    words = "The order is in EUR. Enter the EUR amount agreed, the rate, its date and who agreed it."
    assert payment["says"] == [words]
    assert (gate(order, "deposit"), order.read()["account"]["received"]) == (False, 0)
    refused = order.post("/deposit-invoices", {"payment": payment["id"]}, expect=409)
    assert (refused["type"], refused["detail"]) == ("/problems/not-agreed", words)

    agreed = {"amount": 5_520_00, "rate": "1.15", "rate_day": "2026-11-24", "agreed_by": "Greta Lindenhof"}
    after = order.post(f"/payments/{payment['id']}/agreement", agreed)
    assert (after["account"]["received"], after["account"]["short"]) == (5_520_00, 64_60)
    assert gate(order, "deposit") is False

    set_tolerance(manager, "EUR", 64_59)
    assert gate(order, "deposit") is False
    set_tolerance(manager, "EUR", 64_60)
    assert gate(order, "deposit") is True
    set_tolerance(manager, "EUR", 0)
    assert gate(order, "deposit") is False


def test_a_bill_in_euro_that_is_taxed_asks_for_the_rate_to_state_its_tax_in_sterling(clerk: Desk) -> None:
    customer = {"name": "Joost Aalberts", "trade": False, "country": "NL", "language": "en"}
    order = ordered(quote(clerk, customer, price_list="EUR", to="NL"), (shell(clerk), 1))
    cases = {one["case"]: one["says"] for one in order.read()["open_cases"]}
    assert cases["export"] == ""
    assert cases["standard"].startswith("In doubt the tax, €2,898.00, is held as security and paid back on evidence")
    assert order.read()["state_tax_in"] is None  # nobody has decided yet whether it is taxed
    order.post("/tax-case", {"case": "standard", "why": "No evidence of export yet."})
    assert order.read()["state_tax_in"] == "GBP"
    refused = order.post("/invoices", {}, expect=422)
    assert "GBP" in refused["errors"]["exchange"][0]
    rate = {"rate": "1.16", "day": "2026-11-24", "source": "HMRC monthly rates, November 2026"}
    told = order.post("/invoices", {"exchange": rate})["documents"][-1]["stated"]
    assert (told["currency"], told["tax"], told["rate"], told["source"]) == ("GBP", 2_498_28, "1.16", rate["source"])


def test_case_16_in_rand_there_is_no_list(clerk: Desk) -> None:
    choices = shell(clerk, market="southern-africa", packing="frame", delivery="port")
    order = ordered(quote(clerk, KAROO_ROAD, to="ZA"), (choices, 1))
    (payment,) = order.pay(90_000_00, "ZAR")["payments"]
    assert payment["says"][1] == "There is no ZAR list; Karoo Road Restorations is quoted in GBP."
    assert order.read()["account"]["received"] == 0


def test_case_16_quoting_in_rand_says_in_what_karoo_road_is_quoted(clerk: Desk) -> None:
    enquiry = clerk.create("/api/enquiries", {"customer": KAROO_ROAD, "donor": {}})
    body = {"price_list": "ZAR", "delivery_place": {"country": "ZA", "region": ""}}
    at, key = f"/api/enquiries/{enquiry['id']}/quotations", {"Idempotency-Key": "quoted-in-rand-in-english"}
    refused = clerk.send("POST", at, body, key, expect=422)
    assert refused["errors"] == {"price_list": ["There is no ZAR list; Karoo Road Restorations is quoted in GBP."]}
    slots = {"paid": "ZAR", "customer": KAROO_ROAD["name"], "currency": "GBP"}
    assert say("fault.unknown-list-quoted", "de", **slots) == (
        "Eine Preisliste in ZAR gibt es nicht; das Angebot für Karoo Road Restorations lautet auf GBP."
    )
    asked = clerk.send("POST", "/api/answers", {"specification": {}, "price_list": "ZAR"}, expect=422)
    assert asked["errors"]["price_list"] == ["There is no ZAR list; the lists are GBP, EUR, USD."]
    countries = {one["code"]: one["currency"] for one in clerk.get("/api/countries")["countries"]}
    assert (countries["ZA"], countries["DE"], countries["GB"]) == ("ZAR", "EUR", "GBP")


def test_case_22_money_the_worksheet_proposes_nothing_and_shares_the_tax(clerk: Desk, manager: Desk) -> None:
    """The stage is told by hand: the workshop's own record of it comes with the workshop's pages."""
    order = case_12(clerk)
    deposit = order.deposit(3_712_50, "GBP")
    managed = Ordered(manager, order.number, order.quoted)
    told = {"stage": "rollover weld", "hours": "61", "resale": "stock in build", "why": "Cancelled by letter."}
    missing = managed.post("/refund-worksheets", told, expect=422)
    assert missing["errors"]["kept"]  # no forfeit is proposed: a person writes it
    beyond = managed.post("/refund-worksheets", {**told, "kept": 3_712_51}, expect=422)
    assert beyond["errors"]["kept"] == [
        "No more than £3,712.50 with tax was received and billed: write that or less, or 0."
    ]
    worked = manager.send("POST", f"/api/orders/{order.number}/refund-sum", {"kept": 2_000_00})
    assert [(row["with_tax"], row["tax"]) for row in worked["refunded"]] == [(1_712_50, 285_42)]
    assert [(row["with_tax"], row["tax"]) for row in worked["kept"]] == [(2_000_00, 333_33)]
    assert worked["refunded"][0]["tax"] + worked["kept"][0]["tax"] == 618_75

    sheet = managed.post("/refund-worksheets", {**told, "kept": 2_000_00})["documents"][-1]
    assert (sheet["kind"], sheet["worksheet"]["stage"], sheet["ubl"]) == ("refund-worksheet", "rollover weld", None)
    note = managed.post(f"/refund-worksheets/{sheet['number']}/credit-notes")["documents"][-1]
    assert (note["kind"], note["credits"], sums(note)) == (
        "credit-note",
        deposit["number"],
        (1_427_08, 285_42, 1_712_50),
    )
    order.pay(1_712_50, "GBP", direction="paid-back")
    assert order.read()["account"]["received"] == 2_000_00
    assert clerk.http.post(f"{clerk.url}/api/orders/{order.number}/refund-sum", json={"kept": 0}).status_code == 403


def test_case_23_money_goodwill_is_a_credit_note_with_its_reason(clerk: Desk) -> None:
    order = case_12(clerk)
    order.deposit(3_712_50, "GBP")
    invoice = order.invoice()
    before = clerk.http.get(clerk.url + invoice["papers"][0]["url"]).content
    wanted = {"document": invoice["number"], "line": 1, "net": 150_00, "concession": "CN-2026-0012"}
    assert "why" in order.post("/credit-notes", wanted, expect=422)["errors"]
    assert "net" in order.post("/credit-notes", {**wanted, "net": -150_00, "why": "…"}, expect=422)["errors"]
    note = order.post("/credit-notes", {**wanted, "why": "Bonnet gap passed by concession."})["documents"][-1]
    assert (sums(note), note["credits"], note["credited_line"]) == ((150_00, 30_00, 180_00), invoice["number"], 1)
    assert clerk.http.get(clerk.url + invoice["papers"][0]["url"]).content == before
    assert order.read()["account"]["payable"] == 14_850_00 - 180_00
    too_much = order.post("/credit-notes", {**wanted, "net": 12_225_01, "why": "…"}, expect=422)
    assert "12225" in too_much["errors"]["net"][0].replace(",", "").replace(".", "")


def test_case_19_tax_held_as_security_goes_back_on_evidence(clerk: Desk) -> None:
    order = ordered(quote(clerk, private("NL")), (shell(clerk, market="europe"), 1))
    order.post("/tax-case", {"case": "standard", "why": "Held as security until the evidence is here."})
    order.pay(14_508_00, "GBP")
    bill = order.invoice()
    assert sums(bill) == (12_090_00, 2_418_00, 14_508_00)
    on_evidence = {"case": "export", "why": "The evidence is here."}
    assert order.post("/tax-case", on_evidence, expect=409)["type"] == "/problems/document-stands"
    credit = {"document": bill["number"], "line": 1, "net": 12_090_00, "why": "The evidence of export is here."}
    order.post("/credit-notes", credit)
    order.post("/tax-case", on_evidence)
    assert sums(order.invoice()) == (12_090_00, 0, 12_090_00)
    account = order.read()["account"]
    assert (account["received"], account["over"], account["due"]) == (14_508_00, 2_418_00, 0)


def test_what_was_pressed_twice_is_paid_and_written_once(clerk: Desk) -> None:
    order = case_12(clerk)
    key = {"Idempotency-Key": "pressed-twice-" + order.number}
    body = {"amount": 3_712_50, "currency": "GBP", "day": "2026-11-20", "means": "card"}
    for _ in range(2):
        read = clerk.send("POST", f"/api/orders/{order.number}/payments", body, key, expect=201)
    assert len(read["payments"]) == 1


def test_a_dealer_reads_his_own_order_without_a_sum_while_prices_are_hidden(clerk: Desk, server: Product) -> None:
    order = case_15(clerk)
    order.deposit(5_584_60, "EUR")
    greta = Desk(server.url, "greta", server.passwords["greta"])
    hidden = greta.http.get(f"{greta.url}/api/orders/{order.number}")
    assert hidden.json()["account"] is None
    assert (hidden.json()["payments"], hidden.json()["documents"]) == (None, None)
    assert not any(amount in hidden.content for amount in (b"558460", b"2233840", b"5584.60", b"5,584.60"))
    document = order.read()["documents"][0]
    for path in (document["papers"][0]["url"], document["ubl"]):
        assert greta.http.get(greta.url + path).json()["type"] == "/problems/prices-hidden"
    greta.show_prices()
    assert greta.get(f"/api/orders/{order.number}")["account"]["deposit"] == 5_584_60
    assert greta.http.get(greta.url + document["ubl"]).status_code == 200
    wade = Desk(server.url, "wade", server.passwords["wade"])
    wade.show_prices()
    for path in (f"/api/orders/{order.number}", document["ubl"], document["papers"][0]["url"]):
        assert wade.http.get(wade.url + path).status_code == 404


def test_the_bookkeeper_gets_every_document_and_payment_and_no_formula(clerk: Desk) -> None:
    order = ordered(quote(clerk, private(name="=1+1")), (shell(clerk, delivery="van"), 1))
    order.pay(100, "GBP", note="@cell")
    document = order.deposit(3_712_50, "GBP", "2026-11-20")
    answer = clerk.http.get(f"{clerk.url}/api/bookkeeping.csv?since=2026-11-01&until=2026-11-25")
    rows = [row for row in csv.DictReader(answer.text.splitlines()) if row["order"] == order.number]
    by_row = {(row["row"], row["amount"]): row for row in rows}
    billed = by_row["deposit", "3712.50"]
    assert (billed["number"], billed["net"], billed["tax"]) == (document["number"], "3093.75", "618.75")
    assert billed["customer"] == "'=1+1"
    assert by_row["received", "1.00"]["text"] == "'@cell"
    assert by_row["received", "3712.50"]["refers_to"] == document["number"]


def gate(order: Ordered, name: str) -> Any:
    return next(one["open"] for one in order.read()["gates"] if one["gate"] == name)


def set_tolerance(desk: Desk, currency: str, amount: int) -> None:
    desk.send("PUT", f"/api/tolerances/{currency}", {"amount": amount})


def test_case_30c_order_pressed_twice_on_a_bad_line_is_one_order_with_one_number_and_the_same_answer_twice(
    clerk: Desk,
) -> None:
    quoted = quote(clerk, private())
    quoted.fill((shell(clerk), 1))
    quoted.issue()
    headers = {"If-Match": f'"{clerk.get(quoted.revision)["version"]}"', "Idempotency-Key": uuid4().hex}

    def press(_: int) -> tuple[int, Any]:
        answer = clerk.http.post(
            f"{clerk.url}{quoted.revision}/accept", json={"said_by": "The customer"}, headers=headers
        )
        return answer.status_code, answer.json()

    with ThreadPoolExecutor(2) as line:
        together = list(line.map(press, range(2)))
    answers = [*(one for one in together if one[0] != 409), press(2)]
    assert {status for status, _ in answers} == {200}
    assert all(body == answers[0][1] for _, body in answers)
    number = clerk.get(f"/api/quotations/{quoted.number}/order")["number"]
    found = clerk.get(f"/api/orders?q={quoted.number}")["orders"]
    assert [one["number"] for one in found if one["quotation"] == quoted.number] == [number]
