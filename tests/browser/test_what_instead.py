"""Refusals that teach: why not as a sentence, what instead, one press that takes it and one that undoes it."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product


def sheet(page: Page) -> Locator:
    """The note, opened."""
    return page.locator(".note__sheet")


def offers(page: Page) -> Locator:
    return sheet(page).locator(".offer")


def an_s1_as_it_was(page: Page) -> None:
    """Case 6: the home S1 roadster exactly as original, whose vented scuttle can't be made."""
    desk.new_enquiry(page)
    desk.type_number(page, "T1-04321")
    desk.take(page, "body.roadster", "market.home")
    page.locator(".deeds .button--heavy").click()
    expect(page.locator(".title-block .stamp--cant")).to_have_count(1)


def what_instead(page: Page) -> None:
    page.locator(".block__instead").click()
    expect(offers(page).first).to_be_visible()


def test_case_06_says_why_and_offers_the_two_that_a_clerk_would_name(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    an_s1_as_it_was(page)
    gone = re.compile("the press for the vented scuttle is gone", re.IGNORECASE)
    expect(page.locator(".block--depends")).to_contain_text(gone)
    what_instead(page)
    expect(sheet(page)).not_to_contain_text("A sound original tunnel")  # no part is asked for on an impossible shell
    expect(offers(page).nth(0)).to_contain_text("Scuttle: Plain instead of Vented")
    expect(offers(page).nth(0)).to_contain_text("original narrow tunnel")
    expect(offers(page).nth(0).locator(".offer__total")).to_have_text("£15,348.00 with tax")
    expect(offers(page).nth(0)).not_to_contain_text("same price")  # the shell asked about has none
    expect(offers(page).nth(1)).to_contain_text("Tunnel: Wide instead of Narrow")
    expect(offers(page).nth(1)).to_contain_text("−£768.00 against number 1")
    expect(offers(page).nth(1)).to_contain_text("15 working days less work")
    expect(offers(page).nth(1)).to_contain_text("takes 26 to 36 working days")


def test_one_press_takes_an_alternative_and_one_undoes_it(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    an_s1_as_it_was(page)
    what_instead(page)
    offers(page).nth(1).get_by_role("button").click()
    expect(sheet(page)).to_have_count(0)
    expect(desk.total(page)).to_have_text("£14,580.00")
    page.locator(".note").get_by_role("button", name="Undo").click()
    expect(page.locator(".title-block .stamp--cant")).to_have_count(1)
    expect(desk.choice(page, "tunnel.narrow")).to_have_attribute("aria-pressed", "true")


def test_case_07_four_link_and_impact_is_never_and_three_ways_out_are_offered(server: Product, page: Page) -> None:
    """The shallow well, then the deep one, and what stays; one is taken, what follows is forced, and it is undone."""
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T4-10000")
    desk.take(page, "body.roadster", "market.home")
    desk.all_as_original(page)
    desk.choice(page, "suspension.four-link").click()
    for reason in (
        "the rear rail for the impact bumper fouls the four-link brackets",
        "the tall turrets need",
    ):
        expect(sheet(page)).to_contain_text(reason)
    shallow, deep = offers(page).nth(0), offers(page).nth(1)
    for offer in (shallow, deep):
        expect(offer).to_contain_text("Bumpers: Chrome instead of Impact set")
        expect(offer).to_contain_text("£16,440.00 with tax")
        expect(offer).to_contain_text("Four-link on S1 or S4")
    expect(shallow).to_contain_text("Shallow well with chrome bumpers")
    expect(deep).to_contain_text("Spare-wheel well: Deep instead of Shallow")
    expect(offers(page).last).to_contain_text("Suspension mountings: Leaf stays")
    deep.get_by_role("button").click()
    expect(desk.total(page)).to_have_text("£16,440.00")
    expect(desk.stamp(page)).to_contain_text("A2")
    for forced, rule in (("rail-ends.plain", "D2"), ("bonnet.raised", "D3a")):
        expect(desk.choice(page, forced).locator(".choice__state")).to_contain_text("forced")
        desk.choice(page, forced).locator("xpath=following-sibling::button").click()
        expect(sheet(page)).to_contain_text(rule)
        page.locator(".note__close").click()
    page.get_by_role("button", name="Undo", exact=True).first.click()
    expect(desk.total(page)).to_have_text("£14,970.00")
    expect(desk.stamp(page)).to_contain_text("as your car had it")


def test_case_11_a_shell_that_waits_for_a_part_is_offered_one_that_does_not(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    what_instead(page)
    expect(offers(page).first).to_contain_text("Rear window: Large instead of Small")
    expect(offers(page).first).to_contain_text("−£864.00")
    expect(offers(page).first).to_contain_text("12 working days less work")


def test_a_wish_is_answered_with_shells_that_keep_it(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.choice(page, "roof.folding").click()
    expect(sheet(page)).to_contain_text("N9")
    expect(offers(page).first).to_contain_text("Rear window: Large")
    offers(page).first.get_by_role("button").click()
    expect(desk.choice(page, "roof.folding")).to_have_attribute("aria-pressed", "true")
    expect(desk.choice(page, "rear-window.large")).to_have_attribute("aria-pressed", "true")


def test_of_a_lost_scuttle_a_clerk_hears_that_what_stands_can_stay(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.choice(page, "scuttle.vented").click()
    expect(sheet(page)).to_contain_text("No shell can have that. What stands can stay.")
    expect(offers(page)).to_have_count(1)
    expect(offers(page).first).to_contain_text("Scuttle: Plain stays")
    offers(page).first.get_by_role("button", name="Leave it so").click()
    expect(sheet(page)).to_have_count(0)
    expect(desk.choice(page, "scuttle.plain")).to_have_attribute("aria-pressed", "true")


def test_a_forced_detail_says_why_it_is_here(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.take(page, "suspension.four-link")
    expect(desk.choice(page, "bonnet.raised")).to_contain_text("forced")
    page.get_by_role("button", name="Why: Bonnet, Raised").click()
    expect(sheet(page).locator(".refusal__lead")).to_contain_text(re.compile("four-link", re.IGNORECASE))
    expect(sheet(page)).to_contain_text("D3a")


def test_the_only_window_left_is_the_usual_one_and_the_note_says_both(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.take(page, "body.roadster", "market.home", "series.s3")
    expect(desk.choice(page, "rear-window.none")).to_contain_text("usual")
    page.get_by_role("button", name="Why: Rear window, None").click()
    expect(sheet(page).locator(".refusal__lead")).to_contain_text("As the original car had it")
    expect(sheet(page)).to_contain_text("N8")


def test_a_usual_detail_says_which_car_it_comes_from(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    page.get_by_role("button", name="Why: Rear window, Small").click()
    expect(sheet(page).locator(".refusal__lead")).to_contain_text("S2")


def test_asked_by_keys_it_is_read_taken_and_left_by_keys(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.choice(page, "roof.none").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("?")
    expect(sheet(page)).to_be_focused()
    page.keyboard.press("Escape")
    expect(sheet(page)).to_have_count(0)
    expect(desk.choice(page, "roof.folding")).to_be_focused()
    page.keyboard.press("Enter")
    expect(offers(page).first).to_be_visible()
    spoken = page.locator(".note .unseen[aria-live=polite]")
    expect(spoken).to_contain_text("folding roof")
    take = offers(page).first.get_by_role("button")
    for _ in range(12):
        page.keyboard.press("Tab")
        if take.evaluate("button => button === document.activeElement"):
            break
    page.keyboard.press("Enter")
    expect(desk.choice(page, "roof.folding")).to_have_attribute("aria-pressed", "true")


@pytest.mark.parametrize("language", ["English", "Deutsch"])
def test_on_a_phone_the_refusal_reads_and_stays_within_the_screen(server: Product, page: Page, language: str) -> None:
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "imogen")
    page.locator(".masthead__more").click()
    page.get_by_role("button", name=language).click()
    an_s1_as_it_was_on_a_phone(page)
    page.locator(".foot-bar .button").click()
    what_instead(page)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    box = sheet(page).bounding_box()
    assert box is not None
    assert box["y"] >= 0
    assert box["y"] + box["height"] <= desk.PHONE["height"]
    if language == "Deutsch":
        seen = sheet(page).inner_text()
        assert re.findall(r"\b(the|and|with|of|your|not|instead|days|price)\b", seen) == []
    offers(page).first.get_by_role("button").click()
    expect(page.locator(".foot-bar .small-stamp--once")).to_have_count(1)


def an_s1_as_it_was_on_a_phone(page: Page) -> None:
    desk.new_enquiry(page)
    desk.type_number(page, "T1-04321")
    desk.take(page, "body.roadster", "market.home")
    page.locator(".deeds .button--heavy").click()
    expect(page.locator(".foot-bar .small-stamp--cant")).to_have_count(1)


def test_while_prices_are_hidden_no_alternative_shows_one(server: Product, page: Page) -> None:
    server.sign_in(page, "greta")
    page.get_by_role("button", name="English").click()
    desk.small_window_coupe(page)
    what_instead(page)
    expect(offers(page).first).to_contain_text("12 working days less work")
    expect(page.locator("body")).not_to_contain_text(re.compile(r"[£€$]"))


def test_an_empty_form_wears_no_verdict_that_nobody_asked_for(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    expect(desk.stamp(page)).to_contain_text("Nothing chosen yet")
    desk.type_number(page, "T3-20000")
    expect(desk.stamp(page)).to_contain_text("Nothing chosen yet")
    desk.take(page, "body.coupe")
    expect(desk.stamp(page)).to_contain_text("so far as your car had it")
