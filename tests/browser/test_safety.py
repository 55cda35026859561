"""The manager says that something is at fault, having seen what follows; the floor stands still until he lifts it."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product


def test_what_is_at_fault_stops_its_shells_on_the_floor_until_it_is_lifted(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/tools")
    page.get_by_role("link", name="Safety faults").click()
    page.get_by_role("button", name="Say that something is at fault").press("Enter")
    press = page.get_by_role("button", name="Stop these shells")
    expect(press).to_be_disabled()
    page.get_by_label("Which").select_option("z-rails-boxed")
    # Shells of S4 in the demo's workshop; the boxed rail ends are theirs alone (D1, D2).
    stopped = page.locator(".follows__shell")
    expect(stopped.first).to_contain_text("S4")
    expect(stopped).to_have_count(page.locator(".follows__shell", has_text="S4").count())
    press.click()
    expect(page.get_by_label("What is wrong, in English")).to_have_attribute("aria-invalid", "true")
    page.get_by_label("What is wrong, in English").fill("Welded with the wrong gas.")
    assert faults(page) == "[]"
    press.click()
    card = page.get_by_role("region", name="Boxed rail ends, seams")
    expect(card).to_contain_text("What is wrong is not said in: German.")

    page.set_viewport_size(ViewportSize(**desk.PHONE))
    page.goto(f"{server.url}/floor")
    shells = page.locator(".floor-shell", has_text="S4")
    expect(shells.first.locator(".floor-stop")).to_contain_text("Safety fault: Welded with the wrong gas.")
    expect(shells.get_by_role("button", name="done")).to_have_count(0)

    page.goto(f"{server.url}/safety")
    card.get_by_role("button", name="Lift this fault").press("Enter")
    card.get_by_label("Why it may be lifted").fill("Every seam was ground out and welded anew.")
    assert faults(page) == "[]"
    card.get_by_role("button", name="Lift this fault").last.click()
    expect(page.get_by_role("region", name="Lifted")).to_contain_text("ground out and welded anew")
    page.goto(f"{server.url}/floor")
    expect(page.locator(".floor-shell").first).to_be_visible()
    expect(page.locator(".floor-stop", has_text="Safety fault")).to_have_count(0)
