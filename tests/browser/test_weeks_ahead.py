"""The weeks ahead and the years beyond, by clicking: a better order is sought, and promises are tried out."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser.test_every_reader import faults
from tests.support.product import Product

#: Weighing the orders of nine weeks takes a few seconds.
PATIENCE = 30_000


def test_the_clerk_seeks_a_better_order_sees_every_promise_that_moves_and_takes_exactly_that(
    page: Page, server: Product
) -> None:
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/calendar")
    better = page.get_by_role("region", name="A better order for the weeks ahead")
    better.get_by_label("This week and so many more").select_option("8")
    better.get_by_role("button", name="Seek a better order").press("Enter")
    says = better.get_by_role("status").first
    expect(says).to_contain_text("Every promise is kept", timeout=PATIENCE)
    moved = better.get_by_role("listitem").filter(has_text="Before: framing slot").first
    number = (moved.locator("b, strong").first.text_content() or "").split(",")[0]
    (after,) = re.findall(r"After: framing slot (\d+ \w+ \d{4})", moved.inner_text())
    assert faults(page) == "[]"
    better.get_by_role("button", name="Move exactly these").press("Enter")
    expect(better.get_by_role("status").first).to_have_text("Done: the slots are in that order now.", timeout=PATIENCE)
    page.goto(f"{server.url}/orders/{number}")
    expect(page.locator("main")).to_contain_text(after)


def test_the_manager_reads_how_many_promises_would_hold(page: Page, server: Product) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/calendar")
    page.get_by_role("link", name="Does it hold?").click()
    page.get_by_label("Years", exact=True).fill("4")
    page.get_by_role("button", name="Live through the years").click()
    table = page.get_by_role("region", name="Promises kept by planned load")
    expect(table.locator("tbody tr")).to_have_count(3)
    expect(table).to_contain_text("85% as the rule book plans")
    expect(page.locator(".chart polyline")).to_have_count(3)
    assert faults(page) == "[]"
