"""Cases 5, 18 and 21 from the first click to the last, over HTTP, with a clock that is told the days of the cases."""

from __future__ import annotations

from datetime import datetime
from time import sleep
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key

LONDON, NEW_YORK = ZoneInfo("Europe/London"), ZoneInfo("America/New_York")


def accept(reader: Reader, number: str, version: int = 3) -> Any:
    body = {"said_by": "The customer"}
    return reader.post(f"/api/quotations/{number}/revisions/A/accept", body, If_Match=f'"{version}"', **fresh_key())


def created(reader: Reader, path: str, body: Any) -> Any:
    answer = reader.post(path, body, **fresh_key())
    assert answer.status_code == 201, answer.text
    return answer.get_json()


def test_case_5_a_second_confirmed_order_for_one_car_is_the_manager_s_with_his_reason(desk: Desk) -> None:
    clerk, manager = desk.signed_in("imogen"), desk.signed_in("piers", prices=True)
    orders = []
    for number in (clerk.quotation(), clerk.quotation()):
        assert clerk.issue(number).status_code == 200
        assert accept(clerk, number).status_code == 200
        order = f"/api/orders/{clerk.get(f'/api/quotations/{number}/order').get_json()['number']}"
        paid = {"amount": 3_712_50, "currency": "GBP", "day": "2026-11-25", "means": "bank-transfer"}
        created(clerk, f"{order}/payments", paid)
        for gate in ("specification", "deposit"):
            created(clerk, f"{order}/gates", {"gate": gate, "day": "2026-11-25"})
        orders.append(order)
    first, second = orders
    created(clerk, f"{first}/confirmation", {})
    refused = clerk.post(f"{second}/confirmation", {}, **fresh_key())
    assert (refused.status_code, refused.get_json()["type"]) == (409, "/problems/donor-ordered")
    assert first.rsplit("/")[-1] in refused.get_json()["detail"]
    unsaid = manager.post(f"{second}/confirmation", {}, **fresh_key())
    assert (unsaid.status_code, [*unsaid.get_json()["errors"]]) == (422, ["why"])
    confirmed = created(manager, f"{second}/confirmation", {"why": "Two brothers, one car: both know."})
    assert confirmed["confirmed"] is True


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", "leaves after the export limit: ask the accountant before banking it"), ("de", "nach der Ausfuhrfrist")],
)
def test_case_18_money_paid_in_full_on_4_january_it_leaves_after_the_export_limit(
    desk: Desk, language: str, words: str
) -> None:
    """HM Revenue & Customs, VAT Notice 703: goods and evidence within three months of the full payment."""
    desk.clock.at = datetime(2026, 12, 14, 10, tzinfo=LONDON)
    dealer = desk.signed_in("themba", prices=True)
    number = dealer.quotation(
        "GBP",
        "ZA",
        **{"market": "southern-africa", "body": "coupe", "finish": "painted", "primer": "epoxy-and-filler"},
        **{"scope": "outside", "colour": "oat", "packing": "crate", "delivery": "port"},
    )
    issued = dealer.issue(number).get_json()
    (case,) = issued["totals"]["tax_cases"]
    assert (case["case"], case["tax"], case["payable"]) == ("export", 0, 16_214_50)
    assert accept(dealer, number).status_code == 200
    order = f"/api/orders/{dealer.get(f'/api/quotations/{number}/order').get_json()['number']}"

    desk.clock.at = datetime(2027, 1, 4, 10, tzinfo=LONDON)
    clerk = desk.signed_in("imogen", prices=True)
    assert clerk.patch("/api/session", {"language": language}).status_code == 200
    paid = {"amount": 16_214_50, "currency": "GBP", "day": "2027-01-04", "means": "bank-transfer"}
    created(clerk, f"{order}/payments", paid)
    for gate, day in (("specification", "2026-12-16"), ("deposit", "2027-01-04")):
        created(clerk, f"{order}/gates", {"gate": gate, "day": day})
    move = {"shell": 1, "day": "2027-02-22"}
    shown = clerk.post(f"{order}/slots/what-moves", move).get_json()
    dates = created(clerk, f"{order}/slots", {**move, "token": shown["token"]})
    (shell,) = dates["shells"]
    assert (shell["kept"]["slot"], shell["kept"]["ready"]) == ("2027-02-22", "2027-04-26")
    limit = clerk.get(f"{order}/promises").get_json()["export_limit"]
    assert (limit["paid"], limit["supposed"], limit["due"]) == ("2027-01-04", False, "2027-04-04")
    assert limit["ready"] == "2027-04-26"
    assert words in limit["says"]
    assert desk.signed_in("themba").get(f"{order}/promises").get_json()["export_limit"] is None


def published_with(manager: Reader, prices: str) -> None:
    """The sheet of prices as the next book: drafted, rehearsed, in force from now."""
    draft = created(manager, "/api/book-drafts", {})
    path = f"/api/book-drafts/{draft['id']}"
    pasted = manager.put(f"{path}/prices", {"csv": prices}, If_Match=f'"{draft["version"]}"')
    assert pasted.status_code == 200, pasted.text
    assert manager.post(f"{path}/rehearsal").status_code == 202
    for _ in range(400):
        if manager.get(f"{path}/rehearsal").get_json()["state"] == "done":
            break
        sleep(0.05)
    tagged = {"If-Match": f'"{pasted.get_json()["version"]}"'}
    done = manager.post(f"{path}/publish", {"note": "The raised list."}, **tagged)
    assert done.status_code == 200, done.text


def payable(revision: Any) -> int:
    (case,) = revision["totals"]["tax_cases"]
    return int(case["payable"])


def test_case_21_the_old_list_to_the_end_of_2_december_in_london_and_a_copy_at_today_s_after_it(desk: Desk) -> None:
    """Issued 2 November, the list raised on 16 November: 11 850 → 12 100 for the body, 14 850.00 → 15 150.00 in all."""
    desk.clock.at = datetime(2026, 11, 2, 11, tzinfo=LONDON)
    clerk = desk.signed_in("imogen")
    numbers = [clerk.quotation() for _ in range(3)]
    assert [payable(clerk.issue(number).get_json()) for number in numbers] == [14_850_00] * 3
    early, late, too_late = numbers

    desk.clock.at = datetime(2026, 11, 16, 9, tzinfo=LONDON)
    published_with(desk.signed_in("piers", prices=True), "price,GBP\nbody.roadster,12 100\n")

    desk.clock.at = datetime(2026, 11, 30, 15, tzinfo=LONDON)
    assert payable(accept(desk.signed_in("imogen"), early).get_json()) == 14_850_00

    desk.clock.at = datetime(2026, 12, 2, 23, 40, tzinfo=LONDON)
    assert payable(accept(desk.signed_in("imogen"), late).get_json()) == 14_850_00

    desk.clock.at = datetime(2026, 12, 2, 19, 30, tzinfo=NEW_YORK)
    clerk = desk.signed_in("imogen")
    refused = accept(clerk, too_late)
    assert (refused.status_code, refused.get_json()["type"]) == (409, "/problems/lapsed")
    assert "today’s prices" in refused.get_json()["repair"]

    desk.clock.at = datetime(2026, 12, 3, 9, tzinfo=LONDON)
    clerk = desk.signed_in("imogen")
    at = f"/api/quotations/{too_late}/revisions"
    copied = created(clerk, at, {})
    assert (copied["letter"], payable(copied)) == ("B", 15_150_00)
    assert payable(clerk.get(f"{at}/A").get_json()) == 14_850_00
    (line,) = clerk.get(f"{at}/B/then-and-now").get_json()["lines"]
    moved = [
        (row["line"], row["before"]["list_amount"], row["after"]["list_amount"])
        for row in line["prices"]
        if row["moved"]
    ]
    assert moved == [("body.roadster", 11_850_00, 12_100_00)]
    assert [row["line"] for row in line["prices"] if not row["moved"]] == ["packing.dolly", "delivery.van"]
