"""The other desks: a dealer with his prices hidden, the manager's book and tools, the workshop's tools."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.support.product import Product

MONEY = re.compile(r"[£€$]")


def test_a_dealer_sees_no_price_until_he_switches_them_on(server: Product, page: Page) -> None:
    server.sign_in(page, "greta")
    switch = page.get_by_role("switch")
    expect(switch).to_have_attribute("aria-checked", "false")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-20000")
    desk.take(page, "body.coupe", "market.europe")
    desk.all_as_original(page)
    expect(page.locator("body")).not_to_contain_text(MONEY)
    switch.click()
    expect(desk.total(page).first).to_contain_text("€")
    switch.click()
    expect(page.locator("body")).not_to_contain_text(MONEY)


def test_a_language_picked_before_signing_in_names_the_countries_too(server: Product, page: Page) -> None:
    page.goto(server.url)
    page.get_by_role("button", name="Deutsch").click()
    page.get_by_label("Name", exact=True).fill("nell")
    page.get_by_label("Passwort").fill(server.passwords["nell"])
    page.keyboard.press("Enter")
    page.locator(".slip__link[href^='/quotations']", has=page.locator(".standing--accepted")).first.click()
    expect(page.locator("section[aria-labelledby=whom-title]")).to_contain_text("Vereinigtes Königreich")


def test_a_dealer_finds_only_his_own_work(server: Product, page: Page) -> None:
    server.sign_in(page, "greta")
    expect(page.locator(".slip").first).to_be_visible()
    expect(page.locator("main")).not_to_contain_text(re.compile("Bayou|Hollin|Thornbury"))
    page.goto(f"{server.url}/quotations/Q-2026-00001")
    expect(page.get_by_role("heading", name="Unter dieser Adresse gibt es nichts.")).to_be_visible()


def test_the_lead_may_say_that_a_tool_is_down_but_not_lost(server: Product, page: Page) -> None:
    server.sign_in(page, "tomasz")
    page.get_by_role("link", name="Tools").click()
    page.get_by_role("button", name="Change: Raised-bonnet press").click()
    row = page.locator(".tool", has_text="Raised-bonnet press")
    expect(row.get_by_role("radio")).to_have_count(2)
    expect(row).to_contain_text("That is how it stands now.")
    row.get_by_label("down").check()
    # Case 9's share is that of the four-link bracket tool, and each goes with the other (D3a, D3b).
    expect(row.locator(".follows")).to_contain_text("13,632 of the 50,496 structures")
    expect(row.locator(".follows")).not_to_contain_text(MONEY)
    row.get_by_role("button", name="Say that it is down").click()
    expect(row.get_by_role("alert")).to_contain_text("Reason: Say why")
    expect(row.get_by_role("alert")).not_to_contain_text("enquiry")
    row.get_by_label("Expected back").fill("2026-12-16")
    row.get_by_label("Reason").fill("Ram leaks")
    row.get_by_role("button", name="Say that it is down").click()
    expect(row).to_contain_text("back 16 Dec 2026")
    expect(row).to_contain_text("Ram leaks")
    expect(row.get_by_role("button", name="Change")).to_be_focused()
    row.get_by_role("button", name="Change").click()
    row.get_by_label("in order").check()
    row.get_by_role("button", name="Say that it is in order").click()
    expect(row).not_to_contain_text("back 16 Dec 2026")


def test_the_manager_sees_whom_a_lost_tool_touches_before_he_says_it(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/tools")
    page.get_by_role("button", name="Change: Four-link bracket tool").click()
    row = page.locator(".tool", has_text="Four-link bracket tool")
    row.get_by_label("lost").check()
    follows = row.locator(".follows")
    expect(follows).to_contain_text("no part stands in for it")
    expect(follows).to_contain_text("Four-link with tall front turrets")
    expect(follows).to_contain_text(re.compile(r"Issued and in date.*Maud Ferrier.*£13,985.00"))
    expect(follows).to_contain_text(re.compile(r"Drafts.*Una Brackwell"))
    row.get_by_role("button", name="Leave it").click()
    expect(follows).to_have_count(0)
    expect(row).to_contain_text("in order")


def test_the_lead_sees_no_money_and_no_button_that_leads_nowhere(server: Product, page: Page) -> None:
    server.sign_in(page, "tomasz")
    page.get_by_role("link", name="Tools").click()
    expect(page.get_by_role("heading", name="Tools")).to_be_visible()
    expect(page.locator("body")).not_to_contain_text(MONEY)
    expect(page.get_by_role("button", name="New enquiry")).to_have_count(0)


def test_the_manager_searches_the_rules_by_their_reasons(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.get_by_role("link", name="Rule book").click()
    page.get_by_label("Search the book").fill("seat for the small window")
    rows = page.locator("section[aria-labelledby=rules] tbody tr")
    expect(rows).to_have_count(1)
    expect(rows).to_contain_text("D18")


def test_an_amount_is_found_however_it_is_printed(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/book")
    lines = page.locator("section[aria-labelledby=prices] tbody tr")
    expect(lines).not_to_have_count(0)
    for written in ("1 460", "1,460.00", "1460", "1.460,00", "£1,460.00"):
        page.get_by_label("Search the book").fill(written)
        expect(lines).to_have_count(1)  # the scenario's own price of the four-link mountings
        expect(lines).to_contain_text("Four-link")


def test_a_rule_is_found_by_its_condition_in_the_words_of_the_book(server: Product, page: Page) -> None:
    server.sign_in(page, "tomasz")
    page.goto(f"{server.url}/book")
    page.get_by_label("Search the book").fill("Bumpers “Chrome” · “Plain”")
    rows = page.locator("section[aria-labelledby=rules] tbody tr")
    expect(rows).to_have_count(1)
    expect(rows).to_contain_text("Only Bumpers and Rail ends together one of")


def test_the_manager_begins_at_what_he_has_to_look_after(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    cards = page.locator(".watch__card")
    expect(cards).to_have_count(3)
    lapsing = page.get_by_role("region", name=re.compile("^About to lapse"))
    expect(lapsing.get_by_role("listitem").first).to_contain_text(
        re.compile(r"Q-2026-\d+ A.*valid to .*[£€$].*before tax")
    )
    tools = page.get_by_role("region", name=re.compile("^Tools down or lost"))
    expect(tools).to_contain_text("Vented-scuttle press")
    lapsing.get_by_role("button", name="All that is issued").click()
    expect(page.get_by_role("button", name="issued", exact=True)).to_have_attribute("aria-pressed", "true")
    tools.get_by_role("link", name="All tools").click()
    expect(page.get_by_role("heading", name="Tools", level=1)).to_be_visible()


def test_the_clerk_begins_at_her_desk(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    expect(page.locator(".slip").first).to_be_visible()
    expect(page.locator(".watch")).to_have_count(0)
