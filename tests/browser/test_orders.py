"""Orders in the browser: from the yes to the order, a payment, its document, a credit note, the manager's refund."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product

SIZES = {"desk": desk.DESK, "phone": desk.PHONE}
MONEY = re.compile(r"[£€$]")

#: Of the demo on the tests' day: case 12's sums with its deposit, case 16's pounds, one unpaid.
PAID, IN_POUNDS, UNPAID = "O-2026-00001", "O-2026-00002", "O-2026-00013"


def open_order(page: Page, server: Product, number: str) -> None:
    page.goto(f"{server.url}/orders/{number}")
    page.locator("#gates-title").wait_for()


def test_an_accepted_quotation_leads_to_its_order(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/quotations/Q-2026-00001")
    page.get_by_role("link", name=f"To order {PAID}").click()
    expect(page.locator("main")).to_contain_text("not confirmed")
    expect(page.locator(".order-shell")).to_have_count(1)


def test_the_clerk_records_a_payment_and_bills_it_with_the_keyboard(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    open_order(page, server, UNPAID)
    expect(page.locator(".gate--shut", has_text="Deposit – not met")).to_have_count(1)
    page.get_by_role("button", name="Record a payment").press("Enter")
    amount = page.get_by_label("Amount, as it came")
    amount.fill("3,712")
    expect(page.locator(".money-form")).to_contain_text("Write an amount that can be read one way only")
    amount.fill("3,712.50")
    expect(page.locator(".money-form")).to_contain_text("Understood: £3,712.50")
    amount.press("Enter")
    expect(page.locator(".gate--open", has_text="Deposit – met")).to_have_count(1)
    expect(page.locator(".gate--later", has_text="Deposit cleared – met; the day")).to_have_count(1)
    page.get_by_role("button", name="Write the deposit invoice").press("Enter")
    document = page.locator(".document").first
    expect(document).to_contain_text(re.compile(r"Deposit invoice I-2026-\d{5}"))
    expect(document).to_contain_text("tax £618.75")
    document.get_by_role("button", name="Write a credit note").press("Enter")
    document.get_by_label("Amount before tax").fill("150")
    document.get_by_label("Concession").fill("CN-7")
    document.get_by_label("Why").fill("Goodwill.")
    document.get_by_role("button", name="Write the credit note").press("Enter")
    expect(page.locator(".document").last).to_contain_text("£180.00")


def test_pounds_on_a_euro_order_show_how_short_they_are(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    open_order(page, server, IN_POUNDS)
    expect(page.locator(".payment").first).to_contain_text("£4,800.00")
    expect(page.locator(".payment").first).to_contain_text("Counts for €5,520.00: rate 1.15")
    expect(page.locator(".account__short")).to_contain_text("€64.60")


def test_an_invoice_takes_two_presses(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    open_order(page, server, PAID)
    documents = page.locator("section[aria-labelledby=documents-title]")
    before = documents.locator(".document").count()
    documents.get_by_role("button", name="Write the invoice …").press("Enter")
    expect(documents.locator(".sure")).to_contain_text("It bills £14,850.00 with tax.")
    documents.get_by_role("button", name="Leave everything as it is").press("Enter")
    expect(documents.locator(".sure")).to_have_count(0)
    expect(documents.locator(".document")).to_have_count(before)


def test_the_manager_works_out_a_refund_and_nothing_is_proposed(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    open_order(page, server, PAID)
    page.get_by_role("button", name="Work out a refund").click()
    form = page.locator("section", has=page.locator("#refund-title"))
    expect(form.get_by_label("To be kept")).to_have_value("")
    form.get_by_label("To be kept").fill("2000.00")
    expect(form.locator("tbody")).to_contain_text("£1,712.50")
    expect(form.locator("tbody")).to_contain_text("£285.42")
    expect(form.locator("tbody")).to_contain_text("£333.33")


@pytest.mark.parametrize("size", SIZES)
def test_a_dealer_reads_his_orders_in_german_without_a_sum_until_he_shows_prices(
    server: Product, page: Page, size: str
) -> None:
    page.set_viewport_size(ViewportSize(**SIZES[size]))
    server.sign_in(page, "greta")
    page.goto(f"{server.url}/orders")
    expect(page.locator(".slip", has_text=IN_POUNDS)).to_contain_text("Anzahlung offen")
    expect(page.locator("main")).not_to_contain_text(re.compile("Hollin|Bayou|Tarrant"))
    open_order(page, server, IN_POUNDS)
    expect(page.locator("main")).not_to_contain_text(MONEY)
    page.get_by_role("switch").click()
    expect(page.locator(".account__short")).to_contain_text("64,60")
    expect(page.get_by_role("button", name="Zahlung eintragen")).to_have_count(0)
    assert faults(page) == "[]"


@pytest.mark.parametrize("size", SIZES)
def test_no_accessibility_fault_with_every_form_open(server: Product, page: Page, size: str) -> None:
    page.set_viewport_size(ViewportSize(**SIZES[size]))
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/orders")
    page.locator(".slip").first.wait_for()
    for summary in page.locator("summary").all():
        summary.click()
    assert faults(page) == "[]"
    open_order(page, server, IN_POUNDS)
    for button in page.locator(".folded-form > button").all():
        button.click()
    assert faults(page) == "[]"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
