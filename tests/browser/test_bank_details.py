"""Bank details in the browser: one manager proposes, another agrees, and only then they stand there for everybody."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product


def test_one_manager_proposes_and_another_agrees_on_a_telephone(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/bank-details")
    page.get_by_role("button", name="Propose a change").press("Enter")
    form = page.locator(".bank form")
    form.get_by_label("Account holder").fill("Ravensmoor Body Company")
    form.get_by_label("IBAN or account number").fill("GB82 WEST 1234 5698 7654 33")
    form.get_by_label("Who confirmed it").fill("Ines Calder of the bank")
    form.get_by_label("The number called").fill("+44 1632 960 300")
    form.get_by_role("button", name="Propose it").press("Enter")
    expect(form.get_by_label("IBAN or account number")).to_have_attribute("aria-invalid", "true")
    form.get_by_label("IBAN or account number").fill("GB82 WEST 1234 5698 7654 32")
    form.get_by_role("button", name="Propose it").press("Enter")
    expect(page.locator(".bank__waits")).to_contain_text("another manager has to agree")
    expect(page.get_by_role("button", name="Agree")).to_have_count(0)
    assert faults(page) == "[]"

    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "maren")
    page.locator("#watch-bank").wait_for()
    page.get_by_role("link", name="The firm’s own").click()
    expect(page.locator(".bank__waits")).to_contain_text("by a call to +44 1632 960 300")
    assert faults(page) == "[]"
    page.get_by_role("button", name="Agree").press("Enter")
    expect(page.locator(".bank > .bank__account")).to_contain_text("GB82 WEST 1234 5698 7654 32")
    expect(page.locator(".bank__waits")).to_have_count(0)
