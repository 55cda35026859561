"""When a shell is ready, by clicking: a deposit takes a slot, and a move shows every promise before it moves any."""

from __future__ import annotations

import pytest
import requests
from playwright.sync_api import Page, expect

from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk, private, quote
from tests.cases.ordered import Ordered, ordered
from tests.cases.test_cases_money import shell
from tests.support.product import Product


@pytest.fixture
def orders(server: Product) -> list[Ordered]:
    """Two, each with its deposit paid."""
    desk = Desk(server.url, "imogen", server.passwords["imogen"])
    made = [ordered(quote(desk, private(name=name)), (shell(desk), 1)) for name in ("First Person", "Second Person")]
    for order in made:
        order.pay(order.read()["account"]["deposit"], "GBP")
    return made


def test_a_deposit_takes_a_slot_and_a_swap_shows_both_promises_first(
    page: Page, server: Product, orders: list[Ordered]
) -> None:
    first, second = orders
    second.post("/gates", {"gate": "deposit", "day": "2026-11-25"})
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/orders/{first.number}")
    dates = page.get_by_role("region", name="When it is ready")
    expect(dates).to_contain_text("No slot yet")
    lacks = page.get_by_role("region", name="Confirmation", exact=True)
    expect(lacks).to_contain_text("The deposit has no day")
    dates.get_by_role("button", name="Date what came through").click()
    dates.get_by_role("button", name="Write it down").click()
    expect(dates).to_contain_text("framing slot")
    expect(lacks).not_to_contain_text("The deposit has no day")
    slots = [order.desk.get(f"/api/orders/{order.number}/promises")["shells"][0]["kept"]["slot"] for order in orders]
    dates.get_by_role("button", name="Move the slot").click()
    dates.get_by_label("Framing on").fill(slots[1])
    dates.get_by_role("button", name="Show what moves").click()
    expect(dates.locator(".moves li")).to_have_count(2)
    expect(dates.locator(".moves")).to_contain_text("Second Person")
    assert faults(page) == "[]"
    dates.get_by_role("button", name="Move exactly these").click()
    expect(dates.locator(".moves")).to_have_count(0)
    after = [order.desk.get(f"/api/orders/{order.number}/promises")["shells"][0]["kept"]["slot"] for order in orders]
    assert after == slots[::-1]


def test_on_the_calendar_a_shell_is_carried_to_another_day_by_keyboard_and_by_hand(
    page: Page, server: Product, orders: list[Ordered]
) -> None:
    """Each way only shows what would move; nothing has moved until it was agreed to."""
    for order in orders:
        order.post("/gates", {"gate": "deposit", "day": "2026-11-25"})
    first = orders[0]
    slot = kept(first)
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/calendar/{slot}")
    ticket = page.locator(f'.board__row--slots [data-ticket="{first.number}/1"]')
    ticket.focus()
    for key in ("Shift+ArrowRight", "ArrowRight", "ArrowRight"):
        page.keyboard.press(key)
    expect(page.locator(".calendar__says")).to_contain_text("free")
    page.keyboard.press("Enter")
    expect(page.locator(".moves li")).to_have_count(1)
    assert faults(page) == "[]"
    assert kept(first) == slot
    page.get_by_role("button", name="Close").click()
    expect(ticket).to_be_focused()
    ticket.hover(position={"x": 8, "y": 8})
    box = ticket.bounding_box()
    assert box is not None
    page.mouse.down()
    page.mouse.move(box["x"] + 8 + 3 * box["width"] / 2, box["y"] + 10, steps=5)
    page.mouse.up()
    expect(page.locator(".moves li")).to_have_count(1)
    on = page.get_by_label("Framing on").input_value()
    assert kept(first) == slot < on
    page.get_by_role("button", name="Move exactly these").click()
    expect(page.locator(".ticket-sheet")).to_have_count(0)
    assert kept(first) == on


def test_an_address_for_a_calendar_program_is_shown_once_and_revoked(page: Page, server: Product) -> None:
    server.sign_in(page, "tomasz")
    page.goto(f"{server.url}/calendar")
    page.get_by_role("button", name="New address").click()
    page.get_by_label("For which program").fill("Screen in the workshop")
    page.keyboard.press("Enter")
    address = page.get_by_label("Address", exact=True).input_value()
    assert requests.get(address, timeout=10).text.startswith("BEGIN:VCALENDAR\r\n")
    assert faults(page) == "[]"
    page.get_by_role("button", name="I have given it on").click()
    row = page.locator(".feed", has_text="Screen in the workshop")
    row.get_by_role("button", name="Revoke").click()
    row.get_by_role("button", name="Revoke it now").click()
    expect(row).to_contain_text("Revoked by Tomasz Brandl")
    assert requests.get(address, timeout=10).status_code == 404


def kept(order: Ordered) -> str:
    """The slot of its only shell."""
    return str(order.desk.get(f"/api/orders/{order.number}/promises")["shells"][0]["kept"]["slot"])
