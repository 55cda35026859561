"""The manager's book page: what is proved of the book, the standard shells, and two books held against each other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from app.config import CHEAP, Config
from app.factory import open_store
from app.services.books import publishing
from demo.loading import BOOK, PIERS
from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import NOW, Product, running_product

#: Long enough for a busy machine to work a proof out.
PATIENCE = 40_000

DEARER = BOOK.read_text(encoding="utf-8").replace("Roadster | 11 850 |", "Roadster | 12 050 |")


@pytest.fixture(scope="module")
def changed(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Product]:
    """The demo after a second book was published: the roadster costs more."""
    data = tmp_path_factory.mktemp("changed") / "data"
    with running_product(data, loaded) as product:
        passwords = product.passwords
    publish(data)
    with running_product(data) as product:
        yield Product(product.url, data, product.now, product.passwords or passwords)


def publish(data: Path) -> None:
    store = open_store(Config(data, cost=CHEAP))
    at = datetime.fromisoformat(NOW).astimezone(UTC) - timedelta(hours=1)
    publishing.publish_book(store, PIERS, DEARER, at, note="Roadster dearer")
    store.close()


def open_all(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")


def the_book(page: Page, server: Product, name: str = "piers") -> None:
    server.sign_in(page, name)
    page.goto(f"{server.url}/book")
    expect(page.locator(".proof__sound")).to_be_visible(timeout=PATIENCE)
    expect(page.locator("section[aria-labelledby=standard-shells] summary").first).to_be_visible(timeout=PATIENCE)


def test_the_manager_reads_that_the_book_is_sound_and_why_the_s1_is_not_built_as_usual(
    server: Product, page: Page
) -> None:
    the_book(page, server)
    proof = page.locator("section[aria-labelledby=proof]")
    expect(proof).to_contain_text("The book is sound")
    # 29 findings: one row for each kind, and only the one that stands alone is written out.
    expect(proof.locator(".weight")).to_have_count(2)
    expect(proof.locator(".weight summary")).to_have_text(
        [
            "Lines that not every list prices 3",
            "Choices that no tool is named for 17",
            "Usual shells that can’t be built 8",
        ]
    )
    proof.get_by_text("Usual shells that can’t be built").click()
    expect(proof).to_contain_text(
        "The usual S1 · Home · Roadster can’t be built. What forbids it: N1 “Vented scuttle”."
    )
    proof.get_by_text("How many variants come of it").click()
    expect(proof).to_contain_text("50,496")


def test_the_standard_shells_are_read_and_taken_away(server: Product, page: Page) -> None:
    the_book(page, server)
    shells = page.locator("section[aria-labelledby=standard-shells]")
    shells.get_by_text("24 for any car").click()
    row = shells.get_by_role("row", name=re.compile("^S2 · Home · Coupé "))
    expect(row).to_contain_text("£13,500.00")
    with page.expect_download() as taken:
        shells.get_by_role("link", name="CSV").click()
    assert taken.value.suggested_filename == "standard-shells-1-en.csv"
    paper = page.request.get(server.url + str(shells.get_by_role("link", name="PDF").get_attribute("href")))
    assert (paper.status, paper.body()[:4]) == (200, b"%PDF")


def test_with_one_book_there_is_nothing_to_hold_it_against(server: Product, page: Page) -> None:
    the_book(page, server)
    expect(page.locator("section[aria-labelledby=against]")).to_have_count(0)


def test_the_lead_reads_the_book_without_the_proof(server: Product, page: Page) -> None:
    server.sign_in(page, "tomasz")
    page.goto(f"{server.url}/book")
    expect(page.locator("section[aria-labelledby=rules]")).to_be_visible()
    expect(page.locator("section[aria-labelledby=proof]")).to_have_count(0)


def test_two_books_are_compared_in_german(changed: Product, page: Page) -> None:
    the_book(page, changed, "imogen")
    page.get_by_role("button", name="Deutsch").click()
    against = page.locator("section[aria-labelledby=against]")
    against.get_by_label("Gegen").select_option("1")
    expect(against).to_contain_text("Dieselben 50.496 Aufbauten lassen sich bauen.", timeout=PATIENCE)
    against.get_by_text("Beträge, die sich geändert haben").click()
    row = against.get_by_role("row", name=re.compile("Roadster"))
    expect(row).to_contain_text(re.compile(r"11\.850,00\s£.*12\.050,00\s£"))
    expect(page.locator("section[aria-labelledby=proof]")).to_contain_text("Das Buch ist in Ordnung")


@pytest.mark.parametrize("size", [desk.DESK, desk.PHONE], ids=["desk", "phone"])
def test_unfolded_it_has_no_accessibility_fault_and_no_sideways_scroll(
    changed: Product, page: Page, size: dict[str, int]
) -> None:
    page.set_viewport_size(ViewportSize(width=size["width"], height=size["height"]))
    the_book(page, changed)
    page.get_by_label("Against", exact=True).select_option("1")
    expect(page.locator("section[aria-labelledby=against] .finding").first).to_be_visible(timeout=PATIENCE)
    open_all(page)
    assert faults(page) == "[]"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
