"""Case 24 over HTTP: a VAT rate that moves between deposit and balance; bank details that take a second person."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from app.services.books import publishing
from demo.loading import BOOK
from tests.app.desk import MANAGER
from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key

CHANGE = {
    "holder": "Ravensmoor Body Company",
    "account": "GB82 WEST 1234 5698 7654 32",  # ISO 13616's example, from memory
    "bank": "Moorland Bank",
    "how": "telephone",
    "spoken_to": "Ines Calder of the bank",
    "known_number": "+44 1632 960 300",
    "day": "2026-11-24",
}


def answer(reader: Reader, proposal: int, agreed: bool, why: str = "") -> Any:
    body = {"agreed": agreed, "why": why}
    return reader.post(f"/api/bank-details/{proposal}/answer", body, **fresh_key())


def test_case_24_bank_details_take_a_second_person_and_a_call(desk: Desk) -> None:
    piers, maren, clerk = (desk.signed_in(name) for name in ("piers", "maren", "imogen"))
    message = {name: CHANGE[name] for name in ("holder", "account")}
    assert "how" in piers.post("/api/bank-details", message, **fresh_key()).get_json()["errors"]
    by_mail = piers.post("/api/bank-details", {**CHANGE, "how": "e-mail"}, **fresh_key())
    assert by_mail.get_json()["errors"]["how"]
    assert clerk.post("/api/bank-details", CHANGE, **fresh_key()).status_code == 403

    waits = piers.post("/api/bank-details", CHANGE, **fresh_key()).get_json()["waits"]
    assert (waits["mine"], waits["by_name"], waits["known_number"]) == (True, "Piers Adeyemi", "+44 1632 960 300")
    own = answer(piers, waits["id"], agreed=True)
    assert (own.status_code, own.get_json()["type"]) == (409, "/problems/second-person-needed")
    assert clerk.get("/api/bank-details").get_json()["holds"] is None
    (listed,) = maren.get("/api/bank-details/waiting").get_json()["waiting"]
    assert (listed["id"], listed["mine"], listed["customer"]) == (waits["id"], False, None)
    told = answer(maren, waits["id"], agreed=True).get_json()
    assert (told["holds"]["account"], told["waits"]) == (CHANGE["account"], None)
    assert told["holds"]["answer"]["by_name"] == "Maren Tolley"
    assert clerk.get("/api/bank-details").get_json()["holds"]["id"] == waits["id"]
    assert desk.signed_in("greta").get("/api/bank-details").status_code == 403

    customer = clerk.enquiry()["customer"]["id"]
    at = f"/api/customers/{customer}/bank-details"
    his = maren.post(at, {**CHANGE, "holder": "Aldous Fenn", "how": "in-person"}, **fresh_key()).get_json()["waits"]
    assert answer(piers, his["id"], agreed=False).status_code == 422
    turned = answer(piers, his["id"], agreed=False, why="He knows nothing of it.").get_json()
    assert (turned["holds"], turned["proposals"][0]["answer"]["why"]) == (None, "He knows nothing of it.")


def test_case_24_a_rate_that_moves_makes_two_categories_and_the_first_is_never_recomputed(desk: Desk) -> None:
    """The invented rate of 22 % holds from 24 November; the deposit came on the 20th."""
    text, row = BOOK.read_text(encoding="utf-8"), "  | 2011-01-04 | 20 %    |\n"
    clerk = desk.signed_in("imogen")
    number = clerk.quotation()
    assert clerk.issue(number).status_code == 200
    at, said = f"/api/quotations/{number}", {"said_by": "Aldous Fenn"}
    assert clerk.post(f"{at}/revisions/A/accept", said, If_Match='"3"', **fresh_key()).status_code == 200
    order = f"/api/orders/{clerk.get(f'{at}/order').get_json()['number']}"
    paid = {"amount": 3_712_50, "currency": "GBP", "day": "2026-11-20", "means": "card"}
    payment = clerk.post(f"{order}/payments", paid, **fresh_key()).get_json()["payments"][0]["id"]
    deposit = clerk.post(f"{order}/deposit-invoices", {"payment": payment}, **fresh_key()).get_json()["documents"][-1]
    moved = text.replace(row, row + "  | 2026-11-24 | 22 %    |\n")
    publishing.publish_book(desk.store, MANAGER, moved, datetime(2026, 11, 24, 9, tzinfo=UTC))

    balance = clerk.post(f"{order}/invoices", {}, **fresh_key()).get_json()["documents"][-1]
    rows = [(one["percent"], one["net"], one["tax"]) for one in balance["taxed"]]
    assert rows == [("22", 9_281_25, 2_041_88), ("20", 3_093_75, 618_75)]
    assert (balance["payable"], deposit["taxed"][0]["tax"]) == (11_323_13, 618_75)
    assert clerk.get(order).get_json()["documents"][0]["taxed"] == deposit["taxed"]
