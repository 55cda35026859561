"""A shell leaves: the clerk takes the money for its invoice, the lead signs it out, and anybody checks its record."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import deeds
from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk
from tests.support.product import Product


def test_a_paid_shell_is_signed_out_and_its_record_is_there_for_anybody(server: Product, page: Page) -> None:
    office = Desk(server.url, "imogen", server.passwords["imogen"])
    waits = next(
        one for one in office.get("/api/leaving")["shells"] if [kept["what"] for kept in one["keeps"]] == ["balance"]
    )
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/orders/{waits['order']}")
    card = page.locator(".leaving", has_text=waits["serial"])
    expect(card).to_contain_text("Stays in the house")
    expect(card.get_by_role("button", name="Despatch it")).to_have_count(0)

    deeds.pay(page, f"{waits['open'] / 100:.2f}")
    expect(card).to_contain_text("paid.")
    expect(card).not_to_contain_text("Stays in the house")

    deeds.sign_out(card)
    expect(card).to_contain_text(re.compile(r"D-2026-\d{5}: left on"))
    card.get_by_text("Papers", exact=True).click()
    expect(card.get_by_role("link", name=re.compile("^Despatch advice"))).to_have_count(4)
    assert faults(page) == "[]"

    record = office.get(f"/api/shells/{waits['id']}/leaving")["record"]
    page.context.clear_cookies()
    page.goto(f"{server.url}/r/{record}")
    expect(page.get_by_role("heading", name="As-built record")).to_be_visible()
    expect(page.locator("main")).to_contain_text("The text has the SHA-256 that was kept with it.")
    expect(page.locator(".record-text")).to_contain_text(f"serial: {waits['serial']}")
    assert faults(page) == "[]"
