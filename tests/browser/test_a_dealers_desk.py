"""A dealer's own desk: four taps to an answer on a phone, his own offer, copies for stock, tokens for his programs."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product

MONEY = re.compile(r"[£€$]")

#: Counts what a finger does; what it costs to type is not a tap.
COUNT = "window.taps = 0; addEventListener('pointerdown', () => (window.taps += 1), true)"


def test_from_the_number_to_the_answer_in_four_taps_on_a_phone_with_prices_hidden(server: Product, page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.add_init_script(COUNT)
    server.sign_in(page, "nell")
    page.evaluate("window.taps = 0")
    page.get_by_role("button", name="New enquiry").click()  # 1: the cursor stands in the number
    page.keyboard.type("T3-20000")
    page.get_by_role("button", name="Coupé", exact=True).click()  # 2
    page.get_by_role("button", name="Home", exact=True).click()  # 3
    page.get_by_role("button", name=re.compile("^Rest as original")).click()  # 4
    expect(page.locator(".foot-bar")).to_contain_text("can: as original")
    assert page.evaluate("window.taps") == 4
    expect(page.locator("body")).not_to_contain_text(MONEY)
    expect(page.locator(".masthead")).to_contain_text("Prices hidden")
    for name in ("Coupé", "Home"):
        box = page.get_by_role("button", name=name, exact=True).bounding_box()
        assert box is not None
        assert box["height"] >= 44, f"{name}: {box['height']} px"


def test_a_dealers_offer_follows_the_price_switch_and_is_copied_for_his_stock(server: Product, page: Page) -> None:
    server.sign_in(page, "nell")
    page.locator(".slip__link[href^='/quotations']", has=page.locator(".standing--accepted")).first.click()
    offer = page.locator("details", has_text="Our offer to the customer")
    offer.locator("summary").first.click()
    expect(offer).to_contain_text("While prices are hidden this paper names none.")
    expect(offer).not_to_contain_text(MONEY)
    of_the_offer = page.locator("section[aria-labelledby=totals-title]")
    expect(of_the_offer).to_contain_text("Prices are hidden.")
    page.get_by_role("switch").click()
    expect(of_the_offer).to_contain_text(re.compile(r"£[\d,.]+\s*with tax"))
    sum_ = re.compile(r"£[\d,.]+ before tax; Hollin Lane Classics adds the tax")
    expect(offer.locator(".retail__sum")).to_contain_text(sum_)
    assert faults(page) == "[]"
    page.get_by_label("How many of each").fill("4")
    page.get_by_role("button", name="Copy × 4 for our stock").click()
    expect(page.locator("h1", has_text=re.compile(r"Q-2026-\d+"))).to_be_visible()
    desk.saved(page)
    expect(page.locator(".title-block")).to_contain_text("Hollin Lane Classics")
    page.get_by_role("button", name="Ask for a formal quotation").click()
    expect(page.locator("section[aria-labelledby=requests-title]")).to_contain_text("Waits for the office.")
    page.goto(server.url)
    expect(page.locator("section[aria-labelledby=asked-title] .slip")).to_contain_text("4 × ")


def test_a_token_is_shown_once_and_revoked(server: Product, page: Page) -> None:
    server.sign_in(page, "nell")
    page.get_by_role("link", name="Our house").click()
    page.get_by_role("button", name="New token").click()
    page.get_by_label("For which program").fill("Window display")
    page.get_by_role("button", name="Make the token").click()
    secret = page.get_by_label("Token", exact=True).input_value()
    assert secret.startswith("bodywright_")
    asked = (f"{server.url}/api/open-orders", {"Authorization": f"Bearer {secret}"})
    assert page.request.get(asked[0], headers=asked[1]).status == 403  # it is for checking alone
    assert faults(page) == "[]"
    page.get_by_role("button", name="I have noted it").click()
    row = page.locator(".token", has_text="Window display")
    row.get_by_role("button", name="Revoke").click()
    row.get_by_role("button", name="Revoke it now").click()
    expect(row).to_contain_text("Revoked by Nell Arkwell")
    expect(page.locator("body")).not_to_contain_text(secret)
    assert page.request.get(asked[0], headers=asked[1]).status == 401
