"""Customers over HTTP: told apart, merged, handed out, erased; nothing of it to whom it is none of his business."""

from __future__ import annotations

from datetime import timedelta
from io import BytesIO
from typing import Any
from zipfile import ZipFile

import pytest

from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key

AGNES = {
    "name": "Agnes Thornbury",
    "country": "GB",
    "telephone": "+44 1632 960 204",
    "email": "agnes@thornbury.example",
}


def asked(reader: Reader, **customer: Any) -> dict[str, Any]:
    made = reader.send("POST", "/api/enquiries", {"customer": {**AGNES, **customer}}, **fresh_key())
    assert made.status_code == 201, made.get_json()
    enquiry: dict[str, Any] = made.get_json()
    return enquiry


def test_the_enquiry_says_which_customer_it_is_and_the_next_may_be_the_same(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    number = asked(clerk)["customer"]["id"]
    asked(clerk, id=number)
    page = clerk.get(f"/api/customers/{number}").get_json()
    assert (page["customer"]["name"], len(page["enquiries"])) == ("Agnes Thornbury", 2)


def test_a_search_says_by_what_each_row_was_found(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    asked(clerk)
    hit = [{"sort": "telephone", "text": "+44 1632 960 204"}]
    (row,) = clerk.get("/api/enquiries?q=01632%20960204").get_json()["enquiries"]
    (customer,) = clerk.get("/api/customers?q=01632%20960204").get_json()["customers"]
    assert (row["found_by"], customer["found_by"]) == (hit, hit)
    assert clerk.get("/api/enquiries").get_json()["enquiries"][0]["found_by"] == []


def test_merging_is_made_on_what_was_read(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    kept, gone = asked(clerk)["customer"]["id"], asked(clerk, name="Agnes Fell")["customer"]["id"]
    body = {"other": gone, "version": 1, "take": ["name"]}
    assert clerk.send("POST", f"/api/customers/{kept}/merge", body).status_code == 428
    assert clerk.send("POST", f"/api/customers/{kept}/merge", body, **{"If-Match": '"7"'}).status_code == 412
    merged = clerk.send("POST", f"/api/customers/{kept}/merge", body, **{"If-Match": '"1"'}).get_json()
    assert (merged["id"], merged["customer"]["name"]) == (kept, "Agnes Fell")
    assert clerk.get(f"/api/customers/{gone}").get_json()["id"] == kept
    assert merged["history"][0]["what"] == f"Customer {gone} merged into this one. Taken from there: name."


def test_the_clerk_hands_out_what_is_held_and_erases_nothing(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    number = asked(clerk)["customer"]["id"]
    out = clerk.send("POST", f"/api/customers/{number}/everything")
    assert (out.status_code, out.mimetype) == (200, "application/zip")
    assert b"agnes@thornbury.example" in ZipFile(BytesIO(out.data)).read("data.json")
    assert clerk.get(f"/api/customers/{number}/erasure").status_code == 403
    assert clerk.get("/api/retention").status_code == 403


def test_the_manager_sees_what_goes_before_it_goes(desk: Desk) -> None:
    clerk, manager = desk.signed_in("imogen"), desk.signed_in("piers")
    enquiry = asked(clerk)
    path = f"/api/customers/{enquiry['customer']['id']}/erasure"
    told = manager.get(path).get_json()
    assert told["goes"]["enquiries"] == [enquiry["reference"]]
    assert "local rules" in told["why_stays"]
    assert manager.send("POST", path, {"why": "asked for", "seen": "something else"}).status_code == 412
    erased = manager.send("POST", path, {"why": "asked for", "seen": told["seen"]}).get_json()
    assert (erased["erased"]["why"], erased["customer"]["telephone"]) == ("asked for", "")
    assert clerk.get("/api/enquiries?q=thornbury").get_json()["enquiries"] == []
    again = manager.get(path)
    assert (again.status_code, again.get_json()["type"]) == (409, "/problems/data-erased")


def test_who_never_ordered_is_proposed_and_erased_in_one_press(desk: Desk) -> None:
    asked(desk.signed_in("imogen"))
    manager = desk.signed_in("piers")
    assert manager.get("/api/retention").get_json() == {"months": None, "due": [], "left": [], "next": None}
    manager.send("PUT", "/api/retention", {"months": 3})
    desk.clock.pass_seconds(timedelta(days=100).total_seconds())
    manager = desk.signed_in("piers")
    (due,) = manager.get("/api/retention").get_json()["due"]
    after = manager.send("POST", "/api/retention/erasures", {"customers": [due["id"]]}).get_json()
    assert (due["name"], after["due"], after["left"]) == ("Agnes Thornbury", [], [])


@pytest.mark.parametrize("months", [0, 601, "a few"])
def test_a_retention_that_is_none_is_refused(desk: Desk, months: Any) -> None:
    assert desk.signed_in("piers").send("PUT", "/api/retention", {"months": months}).status_code == 422


def test_another_dealer_s_customer_answers_as_one_who_does_not_exist(desk: Desk) -> None:
    number, wade = asked(desk.signed_in("greta"))["customer"]["id"], desk.signed_in("wade")

    def told(one: int) -> tuple[int, str]:
        answer = wade.get(f"/api/customers/{one}")
        return answer.status_code, answer.text.replace(str(one), "…")

    assert told(number) == told(99_999)
    assert wade.send("POST", "/api/customers/alike", {**AGNES, "dealer": "lindenhof"}).get_json() == {"alike": []}
    assert wade.get("/api/customers?q=thornbury").get_json()["customers"] == []
