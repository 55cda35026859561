"""One order of three painted shells, from the first number at the desk until the last of them has left.

Office, lead, inspector and manager each do it at pages of their own, and the welder signs at the lead's. On the way a
tool breaks, the customer changes his mind, and one shell is rejected and built again; another order is cancelled. What
all of it came to stands in the books to the penny.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from app.services.inspection import inspecting
from app.store.db import Store
from rules.inspection.subject import Kind, Phase
from tests.app import inspected
from tests.browser import deeds
from tests.cases.desk import Desk
from tests.support.product import Product, running_product

BODYWORK = ("Sub-assembly", "Framing jig", "Rollover weld", "Skinning", "Fit & gap")

#: By hand, from the scenario's price list: a coupé 13,200 less 3 % for three, 240 on a dolly, 3,950 painted outside, is
#: 16,994.00 a shell and 20,392.80 with 20 % tax; a quarter of three of them beforehand. Closed holes are 60 more, 72.00
#: with tax, on the second. What came beforehand is set off on each invoice by its shell's share of 61,250.40.
AGREED, DEPOSIT, WHOLE = "61,178.40", "15,294.60", 6_125_040
BILLED = ("15,300.59", "15,354.62", "15,300.59")


@pytest.fixture(scope="module")
def shop(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Product]:
    """A demo of its own: no other test's order stands in these books."""
    with running_product(tmp_path_factory.mktemp("three") / "data", loaded) as product:
        yield product


def desk_of(shop: Product, name: str) -> Desk:
    return Desk(shop.url, name, shop.passwords[name])


def read_but_one_of_each(shop: Product, serial: str, phase: Phase) -> set[Kind]:
    """Everything of the phase is read but one point of each sort: which sorts."""
    store, now = Store(shop.data / "desk.sqlite3"), datetime.fromisoformat(shop.now)
    (row,) = desk_of(shop, "oona").get(f"/api/inspections?serial={serial}")["inspections"]
    subjects = inspecting.inspection(store, inspected.TABLET, row["shell"], now).subjects
    left = {one.kind: one.id for one in subjects if one.phase is phase}
    inspected.read_all(store, row["shell"], now, phase, without=tuple(left.values()))
    return set(left)


def inspect(shop: Product, page: Page, serial: str, phase: Phase, verdict: str, why: str = "") -> None:
    left = read_but_one_of_each(shop, serial, phase)
    deeds.at_inspection(page, shop, serial)
    deeds.look_at_phase(page, "Metal" if phase is Phase.METAL else "Coat")
    assert len(deeds.read_what_is_left(page)) == len(left)
    deeds.signed_verdict(page, verdict, why)


def test_three_shells_go_from_the_desk_to_the_lorry(shop: Product, browser: Browser) -> None:
    with (
        deeds.seat(browser, shop, "imogen") as office,
        deeds.seat(browser, shop, "tomasz", deeds.TABLET) as lead,
        deeds.seat(browser, shop, "oona", deeds.TABLET) as inspector,
        deeds.seat(browser, shop, "piers") as manager,
    ):
        order = take_the_order(shop, office)
        lead.goto(f"{shop.url}/floor")
        serials = [deeds.release(lead, order, place) for place in (1, 2, 3)]
        build(lead, serials[0])
        change_and_break(shop, office, lead, manager, order, serials[1])
        serials[2] = reject_and_replace(shop, lead, inspector, order, serials[2])
        for serial in serials:
            paint(shop, lead, inspector, serial)
        for serial, billed in zip(serials, BILLED, strict=True):
            send_off(shop, office, lead, order, serial, billed)
    the_books_are_right(desk_of(shop, "imogen"), order)


def test_a_cancelled_order_keeps_in_the_books_what_the_manager_kept(shop: Product, browser: Browser) -> None:
    with deeds.seat(browser, shop, "imogen") as office, deeds.seat(browser, shop, "piers") as manager:
        order = deeds.quoted(office, "Gave Up Ltd", "T3-20001", 1, "body.roadster", "market.home", "delivery.collected")
        deeds.pay(office, "3,627.00")
        deeds.confirm(office)
        deeds.cancel(manager, shop, order, "1000", "The customer gave up the car.")
    desk = desk_of(shop, "imogen")
    account = desk.get(f"/api/orders/{order}")["account"]
    assert (account["payable"], account["received"], account["due"], account["over"]) == (
        1_000_00,
        3_627_00,
        0,
        2_627_00,
    )
    rows = booked(desk, order)
    assert {row["row"] for row in rows} == {"deposit", "credit-note", "received"}
    assert (total(rows, "net"), total(rows, "tax")) == (Decimal("833.33"), Decimal("166.67"))


def take_the_order(shop: Product, page: Page) -> str:
    choices = ("body.coupe", "market.home", "finish.painted", "scope.outside", "colour.moss", "delivery.collected")
    order = deeds.quoted(page, "Three Shells Ltd", "T3-20000", 3, *choices)
    expect(page.locator("main")).to_contain_text(f"£{AGREED}")
    deeds.pay(page, DEPOSIT)
    deeds.confirm(page)
    return order


def build(page: Page, serial: str, *stages: str) -> None:
    for stage in stages or BODYWORK:
        deeds.go_through(deeds.floor_card(page, serial), stage)


def change_and_break(shop: Product, office: Page, lead: Page, manager: Page, order: str, serial: str) -> None:
    """The customer wants the holes closed; before framing the die of the roof cracks, and the manager has it mended."""
    deeds.change(office, shop, order, 2, "Reversing-lamp holes", "blanked", "No lamps on his car.")
    lead.goto(f"{shop.url}/floor")
    card = deeds.floor_card(lead, serial)
    expect(card).to_contain_text("Build sheet, revision 2")
    build(lead, serial, BODYWORK[0])
    deeds.switch_tool(lead, shop, "Coupé roof", "down", "The die has a crack.")
    lead.goto(f"{shop.url}/floor")
    expect(card.locator(".floor-stop")).to_contain_text("Coupé roof")
    expect(card.get_by_role("button", name="Framing jig done")).to_have_count(0)
    deeds.switch_tool(manager, shop, "Coupé roof", "ok")
    lead.goto(f"{shop.url}/floor")
    build(lead, serial, *BODYWORK[1:])


def reject_and_replace(shop: Product, lead: Page, inspector: Page, order: str, serial: str) -> str:
    """The serial of the one that is built in its place."""
    build(lead, serial)
    inspect(shop, inspector, serial, Phase.METAL, "reject", "The frame is twisted beyond mending.")
    lead.goto(f"{shop.url}/floor")
    deeds.floor_card(lead, serial).get_by_role("button", name="Build another in its place").click()
    new = deeds.release(lead, order, 3)
    assert new != serial
    build(lead, new)
    return new


def paint(shop: Product, lead: Page, inspector: Page, serial: str) -> None:
    inspect(shop, inspector, serial, Phase.METAL, "pass")
    lead.goto(f"{shop.url}/floor")
    card = deeds.floor_card(lead, serial)
    card.get_by_role("button", name="Paint begun").click()
    deeds.sign(card, deeds.LEAD, "Sign", exact=True)
    expect(card.get_by_role("link", name="Open its inspection")).to_be_visible()
    expect(card.get_by_role("button", name="Paint done")).to_have_count(0)
    inspect(shop, inspector, serial, Phase.COATED, "pass")
    lead.goto(f"{shop.url}/floor")
    card.get_by_role("button", name="Paint done").click()
    deeds.sign(card, deeds.LEAD, "Sign", exact=True)
    deeds.go_through(card, "Preparation")
    expect(card).to_contain_text("ready")


def send_off(shop: Product, office: Page, lead: Page, order: str, serial: str, billed: str) -> None:
    deeds.at_order(office, shop, order)
    deeds.bill(office, serial)
    card = deeds.leaving_card(office, serial)
    expect(card).to_contain_text(f"£{billed} to pay with tax")
    deeds.pay(office, billed)
    deeds.pack(card, "Three Shells Ltd\n1 Mill Lane\nRavensmoor")
    lead.goto(f"{shop.url}/leaving")
    expect(lead.locator("main")).not_to_contain_text(re.compile("[£€$]"))
    deeds.sign_out(deeds.leaving_card(lead, serial))


def the_books_are_right(desk: Desk, order: str) -> None:
    """Of the order, and of the file that the bookkeeper takes over."""
    found = desk.get(f"/api/orders/{order}")
    account = found["account"]
    assert (account["payable"], account["received"], account["due"], account["over"]) == (WHOLE, WHOLE, 0, 0)
    assert found["state"] == "despatched"
    rows = booked(desk, order)
    assert [row["row"] for row in rows].count("balance") == 3
    assert total(rows, "tax") == Decimal("10208.40")  # 20 % of 51,042.00
    assert total(rows, "net") == Decimal("51042.00")
    assert total([row for row in rows if row["row"] == "received"], "amount") == Decimal("61250.40")


def booked(desk: Desk, order: str) -> list[dict[str, str]]:
    text = desk.http.get(f"{desk.url}/api/bookkeeping.csv?since=2026-11-25&until=2026-11-25").text
    return [row for row in csv.DictReader(io.StringIO(text)) if row["order"] == order]


def total(rows: list[dict[str, str]], column: str) -> Decimal:
    return sum((Decimal(row[column] or "0") for row in rows), Decimal(0))
