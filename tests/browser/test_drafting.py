"""The manager changes the rule book from the screen alone, sees it first, publishes, and takes it back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_every_reader import faults
from tests.support.product import Product, running_product

PATIENCE = 40_000

#: Address within a draft → what is there once the page is.
PAGES = {
    "": ".part",
    "/new/rule": ".draft-piece",
    "/pieces/9": ".grid",
    "/prices": ".draft-prices",
    "/text": ".draft-text",
    "/words": ".draft-word",
    "/rehearsal": ".rehearsal__state",
}


@pytest.fixture(scope="module")
def own(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Product]:
    """A desk whose books may be published without another test noticing."""
    with running_product(tmp_path_factory.mktemp("drafting") / "data", loaded) as product:
        yield product


def begin(page: Page, product: Product, base: str = "") -> str:
    """The address of a new draft."""
    page.goto(f"{product.url}/book-drafts")
    if base:
        page.get_by_label("Begin from").select_option(base)
    page.get_by_role("button", name="Begin a draft").click()
    page.locator(".draft-ways").wait_for()
    return page.url


def open_block(page: Page, draft: str, name: str) -> None:
    page.goto(draft)
    page.get_by_label("Find a block").fill(name)
    page.locator(".slip__link--piece").first.click()
    page.locator(".draft-piece").wait_for()


def keep(page: Page) -> None:
    page.get_by_role("button", name="Keep", exact=True).click()


def add_choice(page: Page, draft: str) -> None:
    """Rail ends that are drilled for a tow eye, on three lists."""
    open_block(page, draft, "sound deadening")
    page.get_by_role("button", name="Add a row").click()
    row = page.locator(".grid__table tbody tr").last
    for cell, text in enumerate(("mats", "Mats", "Matten", "190", "230", "255")):
        row.locator("input").nth(cell).fill(text)
    keep(page)
    expect(page.locator(".draft-kept")).to_have_text("Kept in the draft.")


def add_rule(page: Page, draft: str) -> None:
    """Mats only on painted shells, made by mistake of everything that is primed."""
    page.goto(f"{draft}/new/rule")
    page.get_by_label("Short name").fill("D24")
    page.get_by_role("button", name="Add a condition").click()
    term = page.locator(".term")
    term.get_by_label("Option").select_option("finish")
    term.get_by_label("Primed").check()
    term.get_by_label("Painted").uncheck()
    page.get_by_label("Reason that a customer reads – English").fill("Mats are laid on finished paint.")
    page.get_by_label("Reason that a customer reads – German").fill("Matten kommen auf fertigen Lack.")
    keep(page)
    page.wait_for_url(re.compile(r"/pieces/\d+$"))


def rehearse(page: Page, draft: str) -> None:
    page.goto(f"{draft}/rehearsal")
    page.get_by_role("button", name=re.compile("^Rehearse")).click()
    expect(page.locator("#touched")).to_be_visible(timeout=PATIENCE)


def publish(page: Page, note: str) -> None:
    page.get_by_label("What was changed, and why").fill(note)
    page.get_by_role("button", name="Publish this book").click()


def test_a_choice_and_a_rule_are_added_seen_mended_published_and_taken_back(own: Product, page: Page) -> None:
    own.sign_in(page, "piers")
    draft = begin(page, own)
    add_choice(page, draft)
    add_rule(page, draft)
    rehearse(page, draft)
    page.locator("#touched ~ details summary").first.wait_for()
    expect(page.locator("section[aria-labelledby=touched]")).to_contain_text("Mats are laid on finished paint.")
    expect(page.locator(".proof__unsound")).to_be_visible(timeout=PATIENCE)
    publish(page, "Mats.")
    expect(page.get_by_role("alert")).to_contain_text("contradicts itself")

    open_block(page, draft, "D24")
    page.get_by_role("button", name="Add a condition").click()
    second = page.locator(".term").last
    second.get_by_label("Option").select_option("deadening")
    second.get_by_label("Mats").check()
    second.get_by_label("None").uncheck()
    expect(page.locator(".condition__said")).to_contain_text("Mats")
    keep(page)
    expect(page.locator(".draft-kept")).to_have_text("Kept in the draft.")

    rehearse(page, draft)
    expect(page.locator("section[aria-labelledby=touched]")).to_contain_text("would be otherwise")
    expect(page.locator(".proof__sound")).to_be_visible(timeout=PATIENCE)
    publish(page, "Mats, on painted shells.")
    expect(page.locator(".draft-kept")).to_have_text("Published as book 2.")

    back = begin(page, own, "1")
    rehearse(page, back)
    publish(page, "As it was.")
    expect(page.locator(".draft-kept")).to_have_text("Published as book 3.")


def test_a_mistake_stands_where_it_was_made_and_in_words(own: Product, page: Page) -> None:
    own.sign_in(page, "piers")
    draft = begin(page, own)
    open_block(page, draft, "N4")
    page.get_by_role("button", name="Write it out").click()
    page.get_by_label("As it is written").fill("body is roadstr")
    expect(page.locator(".draft-faults")).to_contain_text("did you mean “roadster”?")
    keep(page)
    expect(page.locator(".draft-wrong").first).to_have_text("1 mistake")
    page.goto(draft)
    page.locator(".finding--fault a").click()
    expect(page.locator(".draft-title")).to_contain_text("Rule N4")


def test_on_a_phone_in_german_a_draft_has_no_accessibility_fault_and_no_sideways_scroll(
    own: Product, page: Page
) -> None:
    own.sign_in(page, "piers")
    draft = begin(page, own)
    page.set_viewport_size({"width": 390, "height": 844})
    page.get_by_role("button", name="More", exact=True).click()
    page.get_by_role("button", name="Deutsch").click()
    for tail, there in PAGES.items():
        page.goto(f"{draft}{tail}")
        page.locator(there).first.wait_for()
        assert faults(page) == "[]", tail
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, tail
        assert page.locator("main").inner_text().find("drafting.") < 0, tail
