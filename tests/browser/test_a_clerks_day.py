"""What happens at a desk all day: cards laid aside, slips of the pen, a reload, and what comes after the last press."""

from __future__ import annotations

import re

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product

MONEY = re.compile(r"[£€$]")


def test_a_new_card_waits_for_the_number(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    expect(page.locator(".donor__number input")).to_be_focused()


def test_a_card_laid_aside_lies_in_the_tray_until_it_is_taken_up_again(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T4-03333")
    expect(page.locator(".tray")).to_have_count(0)
    page.get_by_role("button", name="Lay aside").click()
    page.locator(".tray").get_by_role("link", name="T4-03333").click()
    expect(page.locator(".donor__number input")).to_have_value("T4-03333")


def test_an_unfiled_card_that_was_thrown_away_can_be_brought_back(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T4-03333")
    desk.take(page, "body.coupe")
    page.get_by_role("button", name="Throw away").click()
    expect(page.locator(".tray")).to_have_count(0)
    page.get_by_role("button", name="Bring it back").click()
    expect(page.locator(".donor__number input")).to_have_value("T4-03333")
    expect(desk.choice(page, "body.coupe")).to_have_attribute("aria-pressed", "true")


def test_what_was_done_can_be_undone_after_a_reload(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Undo Later")
    desk.take(page, "bonnet.aluminium")
    desk.saved(page)
    page.reload()
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="Undo").click()
    expect(desk.choice(page, "bonnet.steel")).to_have_attribute("aria-pressed", "true")
    desk.saved(page)
    page.get_by_role("button", name="Redo").click()
    expect(desk.choice(page, "bonnet.aluminium")).to_have_attribute("aria-pressed", "true")
    desk.saved(page)


def test_a_colleagues_change_is_not_undone_by_steps_of_before(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Two At It")
    desk.take(page, "bonnet.aluminium")
    desk.saved(page)
    other = page.context.new_page()
    other.goto(page.url)
    desk.take(other, "rear-window.large")
    desk.saved(other)
    page.reload()
    expect(desk.choice(page, "rear-window.large")).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()


def test_a_number_of_shells_that_is_none_is_said_and_never_changed(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Thirty Thousand")
    field = page.get_by_role("textbox", name="Shells")
    for typed in ("30000", "0", "3 or 4", ""):
        field.fill(typed)
        expect(page.locator(".whole .field__error")).to_have_text(
            "Write a whole number from 1 to 1,000. Until then 1 counts."
        )
        expect(field).to_have_value(typed)
        expect(page.get_by_role("button", name="Issue the quotation")).to_be_disabled()
        field.fill("1")
        expect(page.locator(".whole .field__error")).to_have_count(0)
        expect(page.get_by_role("button", name="Issue the quotation")).to_be_enabled()


def test_after_issuing_the_page_says_so_and_names_the_customers_own_paper(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Said So")
    page.get_by_label("Telephone").fill("01632 960 444")
    desk.saved(page)
    desk.issue(page)
    said = page.locator(".just-issued")
    expect(said).to_be_focused()
    expect(said).to_be_in_viewport()
    expect(said).to_contain_text("is issued.")
    expect(page.locator(".paper--own")).to_have_count(1)
    expect(page.locator(".papers .paper").first).to_contain_text("English, A4")
    expect(page.locator("section[aria-labelledby=whom-title]")).to_contain_text("01632 960 444")


def test_what_lacks_of_the_customer_is_mentioned_before_issuing_and_hinders_nothing(
    server: Product, page: Page
) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Nobody Asked")
    check = page.locator(".check", has_text="how the customer is reached")
    expect(check).to_contain_text("It can go out without.")
    check.get_by_role("button", name="Go there").click()
    expect(page.get_by_label("Telephone")).to_be_focused()
    page.locator(".check", has_text="the tax documents name it").get_by_role("button", name="Go there").click()
    expect(page.locator("[name='customer.address']")).to_be_focused()
    page.get_by_label("E-mail").fill("nobody@")
    expect(page.locator(".check", has_text="half of one")).to_be_visible()
    page.get_by_label("E-mail").fill("nobody@example.org")
    expect(page.locator(".check", has_text="half of one")).to_have_count(0)
    expect(page.get_by_role("button", name="Issue the quotation")).to_be_enabled()


def test_an_accepted_quotation_says_who_does_what_next(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/quotations/Q-2026-00001")
    expect(page.locator(".outcome-next")).to_contain_text("The order is made. Record the deposit there when it comes")
    expect(page.locator(".outcome-next")).to_contain_text("nothing is reserved")


def test_a_dealer_at_a_show_has_the_answer_after_four_taps_and_no_price(server: Product, page: Page) -> None:
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "wade")
    page.get_by_role("button", name="New enquiry").click()
    page.keyboard.type("T3-20000")
    page.locator("[data-first='body.coupe']").click()
    page.locator("[data-first='market.north-america']").click()
    page.get_by_role("button", name="Rest as original").click()
    desk.answered(page)
    expect(page.locator(".foot-bar .small-stamp")).to_contain_text(re.compile("can|once"))
    expect(page.locator("body")).not_to_contain_text(MONEY)


def test_on_the_phone_whatever_is_pressed_is_large_enough_for_a_thumb(server: Product, page: Page) -> None:
    # 44 px: the size of WCAG 2.2's success criterion 2.5.5, https://www.w3.org/TR/WCAG22/#target-size-enhanced
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "greta")
    desk.small_window_coupe(page)
    desk.unfold(page, "body", "steering")
    small = page.evaluate("""() => [...document.querySelectorAll('button, a, select, summary, input')]
      .filter((node) => node.getClientRects().length && !node.closest('.unseen, .skip, svg, [type=checkbox]'))
      .map((node) => [node.textContent.trim().slice(0, 40) || node.id, Math.round(node.getBoundingClientRect().height)])
      .filter(([, height]) => height > 1 && height < 44)""")
    assert small == []


def test_the_drawing_stays_in_sight_while_one_goes_through_the_form(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.choice(page, "deadening.none").scroll_into_view_if_needed()
    expect(page.locator(".shell-drawing__sheet")).to_be_in_viewport()
    covered = """() => document.querySelector('.specification__head').getBoundingClientRect().bottom"""
    assert page.evaluate(covered) < desk.DESK["height"] / 2
