"""Two at one draft, and a server that goes away: what was typed stays."""

from __future__ import annotations

from contextlib import suppress

from playwright.sync_api import Browser, Page, Route, TimeoutError, expect

from tests.browser import desk
from tests.support.product import Product


def test_two_tabs_on_one_draft_are_shown_side_by_side(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Two Tabs")
    other = page.context.new_page()
    other.goto(page.url)
    desk.choice(other, "rear-window.large").click()
    desk.saved(other)
    desk.choice(page, "bonnet.aluminium").click()
    panel = page.locator(".side-by-side")
    expect(panel).to_contain_text("This draft was changed since you opened it.")
    expect(panel).to_contain_text("Imogen Faulk changed it on ")
    expect(panel.get_by_role("row", name="Rear window")).to_contain_text("Large")
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")
    panel.get_by_role("button", name="Take the saved one").click()
    expect(desk.choice(page, "rear-window.large")).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Control+z")
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")
    desk.saved(page)
    other.reload()
    other.get_by_label("Telephone").fill("01632 960001")
    desk.saved(other)
    page.get_by_label("Telephone").fill("01632 960002")
    expect(panel.get_by_role("row", name="Telephone")).to_contain_text("01632 960001")
    expect(panel.locator("tbody tr")).to_have_count(1)
    page.get_by_label("Telephone").fill("0" * 200)
    expect(page.get_by_text("It takes 200 characters: anything pasted beyond them was left off.")).to_be_visible()


def test_while_the_server_is_away_everything_is_kept_and_goes_up_later(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Away A While")

    def unreachable(route: Route) -> None:
        route.abort("connectionrefused")

    page.route("**/api/**", unreachable)
    desk.take(page, "bonnet.aluminium")
    expect(page.locator(".banner")).to_contain_text("The server does not answer.")
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")
    page.unroute("**/api/**", unreachable)
    # The desk tries again by itself too: on a busy machine it may be there before the press.
    with suppress(TimeoutError):
        page.get_by_role("button", name="Try again now").click(timeout=1_000)
    expect(page.locator(".banner")).to_be_hidden()
    desk.answered(page)
    expect(desk.total(page)).to_have_text("£17,556.00")  # 17,064 and the aluminium bonnet's 410 with 20 % on it
    desk.saved(page)
    page.reload()
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")


def test_the_last_click_wins_over_an_answer_that_comes_late(server: Product, browser: Browser, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    held: list[Route] = []
    page.route("**/api/answers", lambda route: held.append(route) if not held else route.continue_())
    desk.take(page, "rear-window.large", "bonnet.aluminium")
    expect(desk.total(page)).to_have_text("£16,692.00")
    for route in held:
        route.continue_()
    page.wait_for_timeout(300)
    expect(desk.total(page)).to_have_text("£16,692.00")
