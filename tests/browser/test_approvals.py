"""An approval from the clerk's form to the manager's yes and back, and the letters beside what is out."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product

SIZES = {"desk": desk.DESK, "phone": desk.PHONE}


def converted_hand(page: Page, name: str) -> None:
    """Case 4: left when new, right now and wanted right."""
    desk.new_enquiry(page)
    desk.type_number(page, "T2-09001")
    desk.take(page, "body.roadster", "market.north-america", "steering.right")
    desk.name_customer(page, name)
    desk.all_as_original(page)
    desk.saved(page)


@pytest.mark.parametrize("size", ["phone"])
def test_the_clerk_asks_and_the_manager_says_yes_with_his_reason(
    server: Product, browser: Browser, page: Page, size: str
) -> None:
    page.set_viewport_size(ViewportSize(**SIZES[size]))
    name = f"Rupert Vale {size}"
    server.sign_in(page, "imogen")
    converted_hand(page, name)
    asking = page.locator(".approvals")
    asking.get_by_role("button", name="Ask the manager: A1, line 1").click()
    asking.get_by_label("What the manager should know").fill("Converted long ago.")
    asking.get_by_role("button", name="Send the question").click()
    expect(asking.locator(".stage")).to_have_text("waits for the manager")

    at_his_desk = browser.new_context(viewport=ViewportSize(**SIZES[size]), locale="en-GB").new_page()
    server.sign_in(at_his_desk, "piers")
    at_his_desk.goto(f"{server.url}/approvals")
    row = at_his_desk.locator(".weighed", has_text=name)
    expect(row).to_contain_text("This hand was not sold in that market")
    expect(row).to_contain_text("Not as the original had it: Steering: Right hand")
    expect(row).to_contain_text("Converted long ago.")
    row.get_by_label("Why").fill("The home bulkhead fits.")
    row.get_by_role("button", name="Approve", exact=True).click()
    expect(row.locator(".stage")).to_have_text("given")
    at_his_desk.context.close()

    page.reload()
    expect(page.locator(".approvals .stage")).to_have_text("given")
    expect(page.locator(".approvals")).to_contain_text("by Piers Adeyemi: The home bulkhead fits.")
    expect(page.locator(".approvals")).to_contain_text("All that it needs has been given.")


def test_a_dealer_sees_his_own_and_has_no_answer_to_give(server: Product, page: Page) -> None:
    server.sign_in(page, "wade")
    page.goto(f"{server.url}/approvals")
    expect(page.locator(".weighed").first).to_contain_text("Asked on")
    expect(page.get_by_role("button", name="Approve", exact=True)).to_have_count(0)
    expect(page.locator(".weighed__total")).to_have_text([""] * page.locator(".weighed").count())


def test_a_reminder_is_written_and_put_on_record(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/chasing")
    page.locator(".slip__link").first.click()
    letters = page.locator(".letters")
    letters.get_by_role("button", name="Reminder").click()
    expect(letters.get_by_label("Text, to be changed as you like")).to_have_value(re.compile("holds to the end of"))
    letters.get_by_role("button", name="Record that it was sent").click()
    expect(letters.locator(".letters__sent")).to_contain_text("Reminder on 25 Nov 2026")
    expect(letters.locator(".letters__sent")).to_contain_text("by Imogen Faulk")
