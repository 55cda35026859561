"""Lists that go on: a button for more, with the keyboard, for whoever sees it and whoever hears it."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser.test_every_reader import faults
from tests.support.product import Product


def test_more_of_a_list_is_called_for_with_the_keyboard_and_read_on_where_it_came(server: Product, page: Page) -> None:
    page.set_viewport_size(ViewportSize(width=1280, height=800))
    server.sign_in(page, "imogen")
    rows = page.locator("#quotations-list > li")
    expect(rows).to_have_count(25)
    expect(page.locator("#quotations")).to_have_text("Quotations more than 25")
    more = page.get_by_role("button", name="Show more (Quotations)")
    shown = rows.last.locator("b").inner_text()
    more.press("Enter")
    expect(rows.nth(25).get_by_role("link")).to_be_focused()
    assert rows.nth(24).locator("b").inner_text() == shown
    while more.count():
        before = rows.count()
        more.press("Enter")
        expect(rows.nth(before).get_by_role("link")).to_be_focused()
    numbers = [one.split()[0] for one in rows.locator("b").all_inner_texts()]
    assert len(numbers) == len(set(numbers)) > 25
    expect(page.locator("#quotations")).to_have_text(f"Quotations {len(numbers)}")
    expect(page.get_by_role("status").filter(has_text="Added beneath: Quotations.")).to_have_count(1)
    assert faults(page) == "[]"


def test_a_list_that_has_no_more_offers_none(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.get_by_label("Find").fill("thornbury")
    expect(page.locator("#quotations-list > li")).to_have_count(1)
    expect(page.get_by_role("button", name="Show more (Quotations)")).to_have_count(0)
