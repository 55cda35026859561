"""Case 11 through the browser: the small-window coupé, from the first click to the paper."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.support.product import Product


def test_case_11_the_small_window_coupe_is_quoted_once_its_ring_has_passed(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    expect(desk.stamp(page)).to_contain_text("Once")
    expect(desk.stamp(page)).to_contain_text("P4")
    expect(desk.total(page)).to_have_text("£17,064.00")
    desk.take(page, "rear-window.large")
    expect(desk.total(page)).to_have_text("£16,200.00")
    expect(desk.stamp(page)).to_contain_text("not as your car had it")


def test_case_11_is_issued_and_its_paper_is_a_pdf(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Ansel Thorne")
    desk.issue(page)
    expect(page.locator(".cells--issued")).to_contain_text("25 Dec 2026")
    address = page.get_by_role("link", name="English, A4").get_attribute("href")
    answer = page.request.get(server.url + str(address))
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF-")


def test_what_is_issued_can_only_be_revised(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Ansel Thorne")
    desk.issue(page)
    expect(page.locator("[data-choice]")).to_have_count(0)
    page.get_by_role("button", name="Write the next revision after A").click()
    expect(page.get_by_role("heading", name=re.compile("draft B"))).to_be_visible()
    expect(desk.total(page)).to_have_text("£17,064.00")
