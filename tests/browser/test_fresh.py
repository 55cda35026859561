"""The floor's page stays as things stand while it lies open: others' signatures come in, and nobody is disturbed."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.deeds import TABLET
from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk
from tests.support.product import Product

#: A little more than the page waits between two questions, in ms.
A_WHILE = 21_000

SHIFTS = """() => {
  window.shifted = 0;
  const count = (list) => list.getEntries().forEach((one) => (window.shifted += one.value));
  new PerformanceObserver(count).observe({ type: 'layout-shift' });
}"""
HIDE = """(hidden) => {
  Object.defineProperty(document, 'hidden', { value: hidden, configurable: true });
  document.dispatchEvent(new Event('visibilitychange'));
}"""


def welds_of(shell: Any) -> list[str]:
    return [zone["zone"] for zone in shell["zones"] if zone["stage"] == shell["stage"] and not zone["signed"]]


def in_build(desk: Desk) -> list[Any]:
    """Shells of the demo that go on, with welds that nobody has signed for: the last ones are others'."""
    every = desk.get("/api/floor")["shells"]
    return [one for one in every if one["state"] == "in-build" and not one["stops"] and welds_of(one)]


def sign(desk: Desk, shell: Any, zones: list[str]) -> None:
    desk.create(f"/api/shells/{shell['id']}/welds", {"zones": zones, "by": "idris", "code": "3305"})


def test_another_s_signature_comes_in_by_itself_and_takes_nothing_from_who_is_entering_something(
    server: Product, page: Page
) -> None:
    lead = Desk(server.url, "tomasz", server.passwords["tomasz"])
    theirs, mine = in_build(lead)[-2:]
    page.clock.install()
    page.set_viewport_size(TABLET)
    server.sign_in(page, "oona")
    page.goto(f"{server.url}/floor")
    other, own = (page.locator(f"#shell-{one['id']}") for one in (theirs, mine))
    own.get_by_text("Something else", exact=True).click()
    own.get_by_role("button", name="Ask for a concession").click()
    own.get_by_label("Why it may stay so").fill("Under the carpet.")
    page.evaluate(SHIFTS)
    top = own.evaluate("(card) => card.getBoundingClientRect().top")
    before = other.get_by_role("button", name=re.compile("^Sign for welds")).inner_text()
    sign(lead, theirs, welds_of(theirs)[:1])
    sign(lead, mine, welds_of(mine))
    done = {"deed": "done", "stage": mine["stage"], "by": "idris", "code": "3305"}
    lead.create(f"/api/shells/{mine['id']}/stages", done)
    page.clock.fast_forward(A_WHILE)
    expect(other.get_by_role("button", name=re.compile("^Sign for welds"))).not_to_have_text(before)

    why = own.get_by_label("Why it may stay so")
    expect(why).to_have_value("Under the carpet.")
    expect(why).to_be_focused()
    assert abs(own.evaluate("(card) => card.getBoundingClientRect().top") - top) < 1
    assert page.evaluate("window.shifted") < 0.001
    expect(page.locator(".as-of")).to_have_text(re.compile(r"As of \d\d:\d\d\. The page refreshes by itself\."))
    assert faults(page) == "[]"

    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.evaluate(HIDE, True)
    page.clock.fast_forward(A_WHILE * 5)
    assert [url for url in asked if url.endswith("/api/floor")] == []
    page.route("**/api/**", lambda route: route.abort())
    page.evaluate(HIDE, False)
    expect(page.locator(".as-of")).to_have_text(re.compile(r"The server is away; as of \d\d:\d\d\."))
    page.unroute("**/api/**")
    page.clock.fast_forward(A_WHILE)
    expect(page.locator(".as-of")).to_have_text(re.compile("^As of"))
    expect(why).to_have_value("Under the carpet.")

    section = f"section:has(#stage-{mine['stage']})"
    expect(page.locator(f"{section} #shell-{mine['id']}")).to_be_visible()
    own.get_by_role("button", name="Leave it").click()
    page.clock.fast_forward(A_WHILE)
    expect(page.locator(f"{section} #shell-{mine['id']}")).to_have_count(0)
    expect(own).to_be_visible()
