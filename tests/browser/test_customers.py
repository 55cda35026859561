"""Customers in the browser: known again while one types, merged side by side, erased in two steps."""

from __future__ import annotations

import re
from typing import Any
from uuid import uuid4

import pytest
import requests
from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product


def asked(server: Product, **customer: Any) -> int:
    """The number of a customer whose enquiry the clerk has just taken down."""
    with requests.Session() as clerk:
        signed = clerk.post(f"{server.url}/api/session", json={"name": "imogen", "password": "blue-ledger"}).json()
        headers = {"X-Forgery-Token": signed["forgery_token"], "Idempotency-Key": uuid4().hex}
        made = clerk.post(f"{server.url}/api/enquiries", json={"customer": customer}, headers=headers)
        return int(made.json()["customer"]["id"])


def test_one_who_is_known_is_offered_while_his_name_is_typed_and_keeps_both_enquiries(
    server: Product, page: Page
) -> None:
    number = asked(server, name="Leopold Ashgrove", country="GB", telephone="+44 1632 960 611")
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.name_customer(page, "Ashgrove, Leopold")
    page.get_by_role("button", name="That’s the one Leopold Ashgrove").click()
    expect(page.get_by_label("Telephone")).to_have_value("+44 1632 960 611")
    desk.saved(page)
    page.get_by_role("link", name=f"The customer’s page (number {number})").click()
    expect(page.locator("h1")).to_have_text("Leopold Ashgrove")
    expect(page.locator("section", has=page.locator("#enquiries")).locator(".slip")).to_have_count(2)
    # The job stays in the tray, and the search says by what it found.
    expect(page.locator(".tray__card")).to_contain_text("Leopold Ashgrove")
    page.get_by_role("link", name="Desk").click()
    page.get_by_role("searchbox").fill("01632 960611")
    expect(page.locator("section", has=page.locator("#customers")).locator(".found-by")).to_have_text(
        "Telephone +44 1632 960 611"
    )


def test_two_are_merged_side_by_side_and_both_names_are_found(server: Product, page: Page) -> None:
    kept = asked(server, name="Cosima Wrenfield", country="GB", telephone="+44 1632 960 622")
    asked(server, name="Cosima Hartwell", country="GB", telephone="01632 960622", address="4 Old Wharf")
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/customers/{kept}")
    page.get_by_text("Compare and merge").click()
    expect(page.get_by_label(re.compile("^Address: The other"))).to_be_checked()
    page.get_by_label(re.compile("^Name: The other")).check()
    page.get_by_role("button", name="Merge the two").click()
    expect(page.locator("h1")).to_have_text("Cosima Hartwell")
    expect(page.locator(".customer__who")).to_contain_text("4 Old Wharf")
    expect(page.locator(".history")).to_contain_text("merged into this one. Taken from there: address, name.")
    page.get_by_role("link", name="Desk").click()
    page.get_by_role("searchbox").fill("cosima wrenfield")
    found = page.locator("section", has=page.locator("#customers"))
    expect(found.locator(".slip")).to_have_count(1)


def test_the_manager_sees_what_goes_and_what_stays_before_it_goes(server: Product, page: Page) -> None:
    number = asked(server, name="Ottoline Marsh", country="GB", email="ottoline@marsh.example")
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/customers/{number}")
    page.get_by_role("button", name="Erase: first see what goes and what stays").click()
    expect(page.locator(".erasing")).to_contain_text("Nothing: no order follows any of the quotations.")
    expect(page.get_by_role("button", name="Erase for good")).to_be_disabled()
    page.get_by_label("Why it is erased").fill("asked for by letter")
    page.get_by_role("button", name="Erase for good").click()
    expect(page.locator("h1")).to_have_text(f"№ {number}")
    expect(page.locator(".customer__erased")).to_contain_text("Reason: asked for by letter")
    page.get_by_role("link", name="Desk").click()
    page.get_by_role("searchbox").fill("ottoline")
    expect(page.locator("main")).to_contain_text("Nothing found.")
    expect(page.locator("#customers")).to_have_count(0)


@pytest.mark.parametrize(("size", "language"), [(desk.DESK, "en"), (desk.PHONE, "de")])
def test_the_pages_have_no_accessibility_fault(server: Product, page: Page, size: ViewportSize, language: str) -> None:
    """The page of a customer who may be two, with both side by side and erasing opened; then the retention."""
    first = asked(server, name="Ignatius Pell", country="GB", telephone=f"01632 960 7{len(language)}1")
    asked(server, name="Ignatius Pell", country="GB", address="1 Low Lane")
    server.sign_in(page, "piers")
    page.set_viewport_size(size)
    if language == "de":
        page.get_by_role("button", name="More", exact=True).click()
        page.get_by_role("button", name="Deutsch").click()
    page.goto(f"{server.url}/customers/{first}")
    page.locator(".alike summary").first.click()
    page.get_by_role("button", name=re.compile("^(Erase: first|Löschen: erst)")).click()
    page.locator(".erasing").wait_for()
    assert faults(page) == "[]"
    page.goto(f"{server.url}/retention")
    page.locator(".retention").wait_for()
    assert faults(page) == "[]"
