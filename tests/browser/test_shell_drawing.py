"""The shell drawing on the pages: it follows the clicks, says the same as a list, and moves nothing."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product

#: As in the Layout Instability API: https://wicg.github.io/layout-instability/
WATCH = """() => { window.shifts = [];
  const inside = (node) => (node?.parentElement ?? node)?.closest?.('.shell-drawing');
  new PerformanceObserver((list) => list.getEntries().forEach((entry) => entry.sources.some(({ node }) => inside(node))
  && window.shifts.push(entry.sources.map(({ node }) => [node?.nodeName, node?.parentElement?.className]))))
  .observe({ type: 'layout-shift', buffered: false }); }"""
PLACE = "document.querySelector('.specification').getBoundingClientRect().top + scrollY"
STROKES = "(group) => [...group.querySelectorAll('path')].map((path) => path.getAttribute('d')).join('')"


def element(page: Page, name: str) -> Locator:
    return page.locator(f'.shell-drawing [data-element="{name}"]')


def test_a_click_puts_the_chosen_choice_into_the_picture_in_heavy_lines(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    expect(element(page, "bonnet/steel")).to_have_attribute("data-state", "usual")
    desk.choice(page, "bonnet.aluminium").click()
    expect(element(page, "bonnet/aluminium")).to_have_attribute("data-state", "chosen")
    expect(element(page, "bonnet/steel")).to_have_count(0)
    assert element(page, "bonnet/aluminium").locator("path").first.get_attribute("stroke-width") == "2.4"


def test_the_other_hand_is_the_other_picture(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    pictures = []
    for hand, state in (("right", "usual"), ("left", "chosen")):
        desk.choice(page, f"steering.{hand}").click()
        expect(element(page, f"steering/{hand}")).to_have_attribute("data-state", state)
        pictures.append(element(page, "dash/flat").evaluate(STROKES))
    assert pictures[0] != pictures[1]


def test_the_list_says_what_the_picture_says_and_nothing_in_it_holds_the_keyboard(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    expect(element(page, "holes/blanked")).to_have_count(1)
    drawing = page.locator(".shell-drawing")
    lines = drawing.locator(".shell-drawing__lines li").all_text_contents()
    assert "; ".join(lines) == drawing.locator("svg > desc").text_content()
    assert "Body: Coupé (chosen, heavy line)" in lines
    titles = drawing.locator("svg > g > title").all_text_contents()
    assert titles == lines
    assert drawing.locator("a, button, input, [tabindex]").count() == 0


def test_what_cannot_stand_is_hatched_with_its_rule(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    expect(desk.choice(page, "roof.folding")).to_contain_text("not with the rest")
    desk.choice(page, "roof.folding").click()
    page.get_by_role("button", name="Write it down all the same").click()
    roof = element(page, "roof/folding")
    expect(roof).to_have_attribute("data-state", "closed")
    expect(roof.locator("text").first).to_have_text("N9")


def test_pointing_at_a_feature_leads_to_its_option(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    element(page, "bonnet/steel").locator(".shell-drawing__reach").dispatch_event("click")
    expect(desk.choice(page, "bonnet.steel")).to_be_focused()


def test_the_drawing_moves_nothing_when_it_comes_nor_when_it_changes(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.route("**/api/drawings", lambda route: route.fulfill(json={"drawing": None}))
    desk.small_window_coupe(page)
    expect(page.locator(".shell-drawing__sheet")).to_have_count(1)
    expect(page.locator(".shell-drawing svg")).to_have_count(0)
    before = page.evaluate(PLACE)
    page.evaluate(WATCH)
    page.unroute("**/api/drawings")
    for choice in ("bonnet.aluminium", "steering.left", "bonnet.steel"):
        desk.choice(page, choice).click()
        expect(element(page, choice.replace(".", "/"))).to_have_count(1)
    assert page.evaluate(PLACE) == before
    assert page.evaluate("window.shifts") == []


def test_on_a_phone_it_is_folded_away_until_it_is_asked_for(server: Product, page: Page) -> None:
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    expect(page.locator(".shell-drawing__sheet")).to_be_hidden()
    page.locator(".shell-drawing summary").click()
    expect(element(page, "body/coupe")).to_have_count(1)
    box = page.locator(".shell-drawing svg").bounding_box()
    assert box is not None
    assert box["width"] / box["height"] < 1.3
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_an_issued_quotation_shows_its_shells(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.goto(f"{server.url}/quotations/Q-2026-00001")
    line = page.locator(".issued-line").first
    expect(line.locator("svg > title")).to_have_text(re.compile("Skerry"))
    body = line.locator("tr", has=page.get_by_role("rowheader", name="Body")).locator("td").first.text_content()
    expect(line.locator("svg > g[data-element^='body/'] > title")).to_have_text(re.compile(f"^Body: {body} "))
