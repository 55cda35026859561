"""Two desks and one shell of stock: the second hears who was faster, and keeps what he typed (case 30a)."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk
from tests.support.product import Product

#: What the demo has finished for stock.
SHELL = "S-2026-00001"


def _quotes(page: Page, server: Product, who: str, customer: str) -> None:
    """A roadster as original, in a quotation of his own."""
    server.sign_in(page, who)
    desk.new_enquiry(page)
    desk.take(page, "series.s3", "body.roadster", "market.home")
    desk.name_customer(page, customer)
    desk.all_as_original(page)
    desk.saved(page)
    expect(page.locator(".from-stock__shell", has_text=SHELL)).to_contain_text("sooner than a new one")


def test_dealer_and_clerk_take_one_shell_of_stock_and_one_has_it(server: Product, page: Page) -> None:
    browser = page.context.browser
    assert browser is not None
    other = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    take = f"Take {SHELL} to the quotation"
    _quotes(page, server, "imogen", "Wilma Thorne")
    _quotes(other, server, "nell", "Hollin Lane Classics")
    other.get_by_role("button", name=take).click()
    held = other.locator(".from-stock__held")
    expect(held).to_contain_text(f"{SHELL} is held for this quotation until")
    expect(held).to_contain_text("It is line 1.")
    assert faults(other) == "[]"
    page.get_by_role("button", name=take).click()
    notice = page.locator(".from-stock .notice")
    lost = rf"{SHELL} was taken at \d\d:\d\d on .+; the nearest free shell is S-2026-\d+"
    expect(notice).to_contain_text(re.compile(lost))
    expect(page.get_by_label(re.compile("^Name$"))).to_have_value("Wilma Thorne")
    expect(page.locator(".from-stock__shell", has_text=SHELL)).to_contain_text("Held for another quotation until")
    assert faults(page) == "[]"
    held.get_by_role("button", name="Let it go").click()
    expect(held).to_have_count(0)
    other.context.close()


def test_the_office_gives_a_shell_of_stock_to_an_order_by_hand_and_takes_it_back(server: Product, page: Page) -> None:
    office = Desk(server.url, "imogen", server.passwords["imogen"])
    order, name = _offered(office)
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/orders/{order}")
    page.get_by_role("button", name="Give it a shell of stock").first.click()
    page.get_by_role("button", name=f"Give it {name}").click()
    page.get_by_role("link", name=re.compile(r"^S-\d{5}, from stock$")).click()
    row = page.locator(".stock-row", has_text=name)
    expect(row).to_contain_text(f"Shell 1 of {order} (not confirmed yet)")
    row.get_by_role("button", name="Take it back …").click()
    row.get_by_role("button", name="Take it back", exact=True).click()
    expect(row).to_contain_text("Free")


def _offered(office: Desk) -> tuple[str, str]:
    """An order that is not confirmed, and a shell of stock that is exactly its first one."""
    for order in office.get("/api/orders")["orders"]:
        told = office.get(f"/api/orders/{order['number']}")
        if told["confirmed"] or told["lines"][0]["shells"][0]["state"] != "planned":
            continue
        if not any(gate["gate"] == "deposit" and gate["open"] for gate in told["gates"]):
            continue
        for offer in office.get(f"/api/orders/{order['number']}/stock-offers?shell=1")["offers"]:
            if not offer["asks"]:
                return order["number"], offer["name"]
    raise AssertionError("no order that stock could serve")
