"""The weeks ahead and the years beyond, by clicking: a better order is sought, and promises are tried out."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser.test_every_reader import faults
from tests.support.product import Product


def test_the_manager_seeks_a_better_order_and_then_reads_how_many_promises_would_hold(
    page: Page, server: Product
) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/calendar")
    better = page.get_by_role("region", name="A better order for the weeks ahead")
    better.get_by_label("This week and so many more").select_option("1")
    better.get_by_role("button", name="Seek a better order").click()
    expect(better.get_by_role("status").first).to_contain_text("hangeovers:")
    page.get_by_role("link", name="Does it hold?").click()
    page.get_by_label("Years", exact=True).fill("4")
    page.get_by_role("button", name="Live through the years").click()
    table = page.get_by_role("region", name="Promises kept by planned load")
    expect(table.locator("tbody tr")).to_have_count(3)
    expect(table).to_contain_text("85 % as the rule book plans")
    expect(page.locator(".chart polyline")).to_have_count(3)
    assert faults(page) == "[]"
