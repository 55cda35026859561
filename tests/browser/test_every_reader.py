"""Every page and state, on a desk and on a phone: no accessibility fault and no sideways scrolling."""

from __future__ import annotations

import json
import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product

#: WCAG 2.2 at A and AA, by the names of axe-core's rule tags: https://www.deque.com/axe/core-documentation/api-documentation/
WCAG = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
#: Only faults are worked out and sent over; what passed would take longer than finding it.
FAULTS_ALONE = {"reporter": "no-passes", "resultTypes": ["violations"]}


def go(address: str) -> Callable[[Page, Product], None]:
    def there(page: Page, server: Product) -> None:
        page.goto(server.url + address)
        page.locator("main h1").first.wait_for()

    return there


def a_draft(page: Page, server: Product) -> None:
    """Refused, with the car's three pictures and what the panels fold away in sight."""
    desk.small_window_coupe(page)
    desk.take(page, "roof.folding")
    desk.say_how_it_stands(page, "steering", "left")


def what_instead(page: Page, server: Product) -> None:
    """Case 6, with why and what instead opened over the sheet."""
    desk.new_enquiry(page)
    desk.type_number(page, "T1-04321")
    desk.take(page, "body.roadster", "market.home")
    page.locator(".deeds .button--heavy").click()
    if page.locator(".foot-bar .button").is_visible():
        page.locator(".foot-bar .button").click()
    page.locator(".block__instead").click()
    page.locator(".offer").first.wait_for()


def an_answer(page: Page, server: Product) -> None:
    """The first that is out and waits, with the form for the customer's no."""
    page.locator(".state-choice").get_by_role("button", name=re.compile("^(issued|ausgestellt)$")).click()
    expect(page.locator(".slip .standing:not(.standing--issued)")).to_have_count(0)
    # One without a next revision begun: that one would open its draft.
    page.locator(".slip__link:has(.standing--issued)", has_not_text=re.compile("revision|Revision")).first.click()
    page.get_by_role("button", name=re.compile("The customer declines|Der Kunde lehnt ab")).click()
    page.locator(".act").wait_for()


def to_come(page: Page, server: Product) -> None:
    go("/work-to-come")(page, server)
    page.locator(".slip__link").first.click()
    page.locator(".issued-line").first.wait_for()


PAGES: dict[str, Callable[[Page, Product], None]] = {
    "desk": go("/"),
    "draft": a_draft,
    "what-instead": what_instead,
    "accepted": go("/quotations/Q-2026-00001"),
    "answer": an_answer,
    "work-to-come": go("/work-to-come"),
    "to-come": to_come,
    "approvals": go("/approvals"),
    "chasing": go("/chasing"),
    "book": go("/book"),
    "tools": go("/tools"),
    "nowhere": go("/book/no-such-page"),
}
SIZES = {"desk": desk.DESK, "phone": desk.PHONE}

#: Looked at in German on the telephone, where words are longest and room is least: in English on the desk alone.
GERMAN = ("desk", "draft", "what-instead", "accepted", "answer")
ENGLISH = [(name, size) for name in PAGES for size in SIZES if size == "desk" or name not in GERMAN]


def faults(page: Page) -> str:
    # A row half under a bar that stays in sight counts as too small a target, though it can be scrolled free.
    bars = "document.querySelectorAll('.note__head, .note, .group-links, .specification__head')"
    page.evaluate(f"{bars}.forEach((bar) => bar.style.position = 'static')")
    found = Axe().run(page, options={**WCAG, **FAULTS_ALONE}).response["violations"]
    return json.dumps([{fault["id"]: [node["html"][:200] for node in fault["nodes"][:3]]} for fault in found], indent=1)


@pytest.mark.parametrize(("name", "size"), ENGLISH)
def test_no_accessibility_fault_and_no_sideways_scroll(server: Product, page: Page, name: str, size: str) -> None:
    page.set_viewport_size(ViewportSize(**SIZES[size]))
    server.sign_in(page, "piers")
    PAGES[name](page, server)
    assert faults(page) == "[]"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_the_first_page_has_no_accessibility_fault(server: Product, page: Page) -> None:
    page.goto(server.url)
    page.locator("form.sign-in").wait_for()
    assert faults(page) == "[]"


@pytest.mark.parametrize("name", GERMAN)
def test_no_accessibility_fault_on_a_german_telephone(server: Product, page: Page, name: str) -> None:
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    server.sign_in(page, "piers")
    page.evaluate("localStorage.setItem('bodywright.language', 'de')")
    page.request.patch(f"{server.url}/api/session", data={"language": "de"}, headers=forgery(page, server))
    page.reload()
    page.get_by_role("button", name="Neue Anfrage", exact=True).wait_for()
    PAGES[name](page, server)
    assert page.evaluate("document.documentElement.lang") == "de"
    assert faults(page) == "[]"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def forgery(page: Page, server: Product) -> dict[str, str]:
    """The token that a change carries."""
    return {"X-Forgery-Token": page.request.get(f"{server.url}/api/session").json()["forgery_token"]}
