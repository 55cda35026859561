"""A manager adds somebody, who chooses a password before anything opens; and is disabled again."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product

OWN = "four unlike words keep"


def sign_in(page: Page, server: Product, password: str) -> None:
    page.context.clear_cookies()
    page.goto(server.url)
    page.locator("input[name=name]").fill("rosa")
    page.locator("input[name=password]").fill(password)
    page.locator("form.sign-in button").click()


def test_somebody_is_added_chooses_a_password_on_a_telephone_and_is_disabled(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.get_by_role("link", name="people and terms").click()
    page.get_by_role("button", name="Add somebody").press("Enter")
    page.get_by_label("Name, as it stands on papers").fill("Rosa Teale")
    page.get_by_label("Sign-in name").fill("imogen")
    page.get_by_role("button", name="Add and show").press("Enter")
    expect(page.get_by_label("Sign-in name")).to_have_attribute("aria-invalid", "true")
    page.get_by_label("Sign-in name").fill("rosa")
    page.get_by_role("button", name="Add and show").press("Enter")
    password = page.locator(".shown-once input").input_value()
    assert faults(page) == "[]"

    page.set_viewport_size(ViewportSize(**desk.PHONE))
    sign_in(page, server, password)
    page.get_by_label("The first password that you were given").fill(password)
    page.get_by_label("The new password", exact=True).fill(OWN)
    page.get_by_label("The new password once more").fill(f"{OWN}s")
    page.get_by_role("button", name="Change the password").press("Enter")
    expect(page.get_by_label("The new password once more")).to_have_attribute("aria-invalid", "true")
    assert faults(page) == "[]"
    page.get_by_label("The new password once more").fill(OWN)
    page.get_by_role("button", name="Change the password").press("Enter")
    expect(page.get_by_role("button", name="New enquiry")).to_be_visible()

    server.sign_in(page, "piers")
    page.goto(f"{server.url}/people/rosa")
    page.get_by_role("button", name="Disable …").press("Enter")
    page.get_by_role("button", name="Disable", exact=True).press("Enter")
    expect(page.get_by_role("button", name="Enable again")).to_be_visible()
    expect(page.locator(".history")).to_contain_text("Rosa Teale disabled")
    assert faults(page) == "[]"
    sign_in(page, server, OWN)
    expect(page.locator(".notice")).to_be_visible()
