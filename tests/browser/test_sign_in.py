"""Signing in, and coming back when the session has ended."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.support.product import Product


def test_a_wrong_password_is_refused_with_what_to_do(server: Product, page: Page) -> None:
    page.goto(server.url)
    page.get_by_label("Name").fill("imogen")
    page.get_by_label("Password").fill("not-the-one")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("don’t go together")
    expect(page.locator(".notice__repair")).not_to_be_empty()
    expect(page.get_by_label("Name")).to_have_value("imogen")


def test_the_right_password_opens_the_desk(server: Product, page: Page) -> None:
    page.goto(server.url)
    page.get_by_label("Name").fill("imogen")
    page.get_by_label("Password").fill(server.passwords["imogen"])
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="On the desk")).to_be_visible()
    expect(page.locator(".masthead")).to_contain_text("Imogen Faulk")


def test_when_the_session_ends_nothing_typed_is_lost(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.name_customer(page, "Perrin Aldous")
    page.context.clear_cookies()
    page.locator(".donor__number input").fill("T3-11111")
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("Nothing you typed is lost")
    dialog.get_by_label("Password").fill(server.passwords["imogen"])
    page.keyboard.press("Enter")
    expect(dialog).to_be_hidden()
    desk.saved(page)
    page.reload()
    expect(page.locator(".donor__number input")).to_have_value("T3-11111")


def test_a_paper_code_that_leads_nowhere_says_so(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/q/no-such-code")
    expect(page.get_by_role("heading", name="There is nothing under this address.")).to_be_visible()
