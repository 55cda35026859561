"""What the form shows and lets one do: states, reasons, history, keys, several jobs at once."""

from __future__ import annotations

import re

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product


def test_a_mistyped_number_is_mended_only_on_confirmation(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "t2 4417")
    field = page.locator(".donor__number input")
    expect(field).to_have_value("t2 4417")
    page.get_by_role("button", name="Use T2-04417").click()
    expect(field).to_have_value("T2-04417")
    expect(page.locator(".reading__series")).to_have_text("S2")


def test_a_number_past_the_last_is_kept_and_said(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T2-21301")
    expect(page.locator(".reading")).to_contain_text("T2-21300")
    expect(page.locator(".donor__number input")).to_have_value("T2-21301")


def test_a_closed_choice_says_why_and_is_not_taken_by_a_click(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    folding = desk.choice(page, "roof.folding")
    expect(folding).to_contain_text("not with the rest")
    expect(desk.choice(page, "scuttle.vented")).to_contain_text("can’t be had")
    folding.click()
    reason = "The folding roof’s rear rail runs where the small window’s upper edge was."
    expect(page.locator(".note")).to_contain_text(reason)
    expect(folding).to_have_attribute("aria-pressed", "false")
    page.get_by_role("button", name="Write it down all the same").click()
    expect(desk.stamp(page)).to_contain_text("Can’t")


def test_undo_and_redo_by_keys(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    coupe = desk.choice(page, "body.coupe")
    coupe.click()
    expect(coupe).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Control+z")
    expect(coupe).to_have_attribute("aria-pressed", "false")
    page.keyboard.press("Control+Shift+Z")
    expect(coupe).to_have_attribute("aria-pressed", "true")


def test_all_as_original_keeps_the_reader_s_own_choices(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-20000")
    desk.take(page, "body.coupe", "market.home", "roof.folding")
    desk.all_as_original(page)
    expect(desk.choice(page, "roof.folding")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="All as original").click()
    expect(desk.choice(page, "roof.none")).to_have_attribute("aria-pressed", "true")


def test_all_as_original_never_contradicts_the_reader_s_own_choice(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-20000")
    desk.take(page, "body.coupe", "market.home", "finish.painted")
    page.get_by_role("button", name="Rest as original").click()
    expect(page.locator(".deeds__said")).to_contain_text("Colour")
    expect(desk.stamp(page)).not_to_contain_text("Can’t")
    expect(desk.choice(page, "primer.epoxy-and-filler")).to_contain_text("forced")
    expect(page.locator(".block--open")).to_contain_text("Paint scope")


def test_an_s1_as_original_is_refused_for_its_lost_scuttle_press(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T1-04321")
    desk.take(page, "body.roadster", "market.home")
    page.get_by_role("button", name="Rest as original").click()
    expect(desk.stamp(page)).to_contain_text("Can’t")
    expect(page.locator(".block--depends")).to_contain_text("The press for the vented scuttle is gone")
    expect(page.locator(".block--depends")).not_to_contain_text("P1")


def test_only_the_answers_that_would_mend_it_are_marked(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T4-03333")
    desk.take(page, "body.roadster", "market.home", "suspension.four-link")
    expect(desk.choice(page, "bumpers.impact")).to_contain_text("not with the rest")
    desk.take(page, "bumpers.impact")
    page.get_by_role("button", name="Write it down all the same").click()
    expect(desk.stamp(page)).to_contain_text("Can’t")
    expect(page.locator(".choice--closed.is-taken")).to_have_count(2)
    expect(desk.choice(page, "body.roadster")).to_contain_text("chosen")


def test_a_job_put_aside_is_resumed_as_it_was_left(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T4-03333")
    desk.take(page, "body.coupe")
    desk.new_enquiry(page)
    expect(page.locator(".donor__number input")).to_have_value("")
    page.get_by_role("link", name="T4-03333").click()
    expect(page.locator(".donor__number input")).to_have_value("T4-03333")
    expect(desk.choice(page, "body.coupe")).to_have_attribute("aria-pressed", "true")


def test_a_reload_brings_back_what_was_not_filed_yet(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T1-04321")
    desk.take(page, "body.roadster")
    page.reload()
    expect(page.locator(".donor__number input")).to_have_value("T1-04321")
    expect(desk.choice(page, "body.roadster")).to_have_attribute("aria-pressed", "true")


def test_the_whole_job_by_keyboard_alone(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.get_by_role("navigation").get_by_role("button", name="New enquiry").focus()
    page.keyboard.press("Enter")
    page.locator(".donor__number input").focus()
    page.keyboard.type("T2-05900")
    expect(page.locator(".reading__series")).to_have_text("S2")
    page.get_by_label(re.compile("^Name$")).focus()
    page.keyboard.type("Keys Only")
    desk.choice(page, "body.roadster").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    desk.choice(page, "market.home").focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Rest as original").focus()
    page.keyboard.press("Enter")
    expect(desk.total(page)).to_have_text("£17,064.00")
    desk.choice(page, "roof.none").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("?")
    expect(page.locator(".note")).to_contain_text("N9")
    desk.saved(page)
    page.get_by_role("button", name="Issue the quotation").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".cells--issued")).to_contain_text("issued", timeout=30_000)


def test_focus_stays_on_the_choice_while_the_answer_comes(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.choice(page, "body.roadster").focus()
    page.keyboard.press("Enter")
    expect(desk.choice(page, "rear-window.none")).to_have_attribute("aria-pressed", "true")
    expect(desk.choice(page, "body.roadster")).to_be_focused()


def test_filing_leaves_the_cursor_where_one_types(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    name = page.get_by_label(re.compile("^Name$"))
    name.focus()
    page.keyboard.type("Rowan")
    desk.saved(page)
    expect(name).to_be_focused()
    page.keyboard.type(" Ashdown")
    expect(name).to_have_value("Rowan Ashdown")


def test_several_lines_are_totalled_by_the_server(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, "Twice Over")
    page.get_by_role("button", name="Copy line 1").click()
    desk.saved(page)
    expect(desk.total(page)).to_have_text("£34,128.00")


def test_three_shells_show_their_discount_their_number_tax_and_total_line_by_line(server: Product, page: Page) -> None:
    """3 % of 11 850.00 is 355.50 a shell; with the dolly 11 734.50 each."""
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-12044")
    desk.take(page, "body.roadster", "market.home")
    desk.all_as_original(page)
    desk.take(page, "packing.dolly", "delivery.collected")
    field = page.get_by_role("textbox", name="Shells")
    field.fill("3")
    field.press("Tab")
    desk.answered(page)
    page.locator(".price-lines summary").click()
    table = page.locator(".price-lines table")
    expect(table.locator("tbody tr").first).to_contain_text("−£355.50")
    sums = table.locator("tfoot tr")
    expect(sums).to_have_text(
        [
            "One shell, before tax£11,734.50",
            "3 shells, before tax£35,203.50",
            "Tax 20%£7,040.70",
            "With tax£42,244.20",
        ]
    )


def test_no_car_is_called_the_customer_s_before_it_is_known_which(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.take(page, "body.roadster", "market.home", "series.s3")
    desk.all_as_original(page)
    expect(desk.stamp(page)).to_contain_text("as the original had it")
    expect(page.locator(".title-block")).not_to_contain_text("your car")


def test_verdict_total_dates_and_the_first_three_it_depends_on_stay_in_sight(server: Product, page: Page) -> None:
    """With twelve things to depend on, at the height of a small desk screen: the rest is counted and unfolds."""
    page.set_viewport_size(ViewportSize(width=1280, height=720))
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.take(page, "steering.left", "belts.front", "holes.open", "bonnet.aluminium", "trial-fit.customers-trim",
              "own-doors.yes", "own-bonnet.yes", "own-boot-lid.yes")  # fmt: skip
    desk.answered(page)
    page.evaluate("scrollTo(0, 900)")
    block = page.locator(".title-block")
    expect(block.locator("#depends-title")).to_have_text("What it depends on (12)")
    named = [re.compile(f"Part to send {rule}") for rule in ("P2a .*doors", "P2b .*bonnet", "P2c .*boot lid")]
    expect(block.locator(".depends__brief li")).to_have_text(named)
    expect(block.locator(".promise__range")).to_be_visible()
    for what in (".stamp", ".totals__big", ".promise__range", ".depends__brief li", ".depends__all summary"):
        for one in block.locator(what).all():
            expect(one).to_be_in_viewport(ratio=1)
    hidden = """() => [...document.querySelectorAll('.title-block .block, .title-block .depends__row')]
      .filter((node) => node.scrollHeight > node.clientHeight + 1).map((node) => node.className)"""
    assert page.evaluate(hidden) == []
    block.get_by_text("and 9 more, all in full").click()
    expect(block.locator(".depends__sheet li")).to_have_count(12)
    expect(block.locator(".depends__sheet")).to_contain_text("C4 Isolate aluminium from steel")
    block.get_by_text("and 9 more, all in full").click()
    expect(block.locator(".depends__sheet")).to_be_hidden()


def test_a_number_set_right_says_what_is_still_as_the_other_car_had_it(server: Product, page: Page) -> None:
    """The shell can be built, and would be wrong: S3 details on an S4."""
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-12044")
    desk.take(page, "body.roadster", "market.home")
    desk.all_as_original(page)
    said = page.locator(".deeds__said")
    expect(said).to_have_text("")
    desk.type_number(page, "T4-05050")
    expect(said).to_contain_text("nobody chose it: Bumpers, Spare-wheel well, Dash and Rail ends.")
    desk.all_as_original(page)
    expect(said).to_have_text("")
    expect(page.locator(".title-block .stamp")).to_contain_text("as your car had it")
    expect(desk.choice(page, "bumpers.impact")).to_have_attribute("aria-pressed", "true")
