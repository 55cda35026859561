"""What holds on the sheet: nothing that jumps, a click answered at once, nothing untranslated."""

from __future__ import annotations

import re
import statistics
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from app.domain.asking.people import Person, Role
from app.services.floor import laying_out
from app.store.db import Store
from tests.browser import desk
from tests.support.product import TOP, Product

SIZES = {"desk": desk.DESK, "phone": desk.PHONE}

#: Cumulative layout shift as in the Layout Instability API: https://wicg.github.io/layout-instability/
WATCH = """() => { window.shifts = []; new PerformanceObserver((list) => list.getEntries().forEach((entry) =>
  entry.hadRecentInput || window.shifts.push([entry.value, ...entry.sources.map(({ node }) => node && node.nodeName)])))
  .observe({ type: 'layout-shift', buffered: false }); }"""
PLACES = """() => [...document.querySelectorAll('[data-choice], .title-block > *')]
  .filter((node) => node.getClientRects().length)
  .map((node) => {
    const box = node.getBoundingClientRect();
    const { choice } = node.dataset;
    return [choice || node.className, box.x, box.y + scrollY * Boolean(choice), box.width, box.height];
  })"""


@pytest.mark.parametrize("size", SIZES)
def test_nothing_on_the_sheet_moves_while_choices_are_made(server: Product, page: Page, size: str) -> None:
    page.set_viewport_size(ViewportSize(**SIZES[size]))
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    desk.unfold(page, "steering", "tunnel", "rear-window", "bonnet", "body")
    page.evaluate(WATCH)
    before = page.evaluate(PLACES)
    for name in ("steering.left", "tunnel.automatic", "rear-window.large", "bonnet.aluminium", "body.roadster"):
        desk.choice(page, name).click()
        page.wait_for_timeout(150)
        desk.answered(page)
        assert page.evaluate(PLACES) == before
    assert page.evaluate("window.shifts") == []


@pytest.mark.parametrize("height", [720, 800])
def test_nothing_stands_out_of_the_title_block_while_questions_are_open(
    server: Product, page: Page, height: int
) -> None:
    page.set_viewport_size(ViewportSize(width=1280, height=height))
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-12000")
    desk.answered(page)
    low, most = page.locator(".title-block").evaluate("(block) => [block.scrollHeight, block.clientHeight]")
    assert low <= most


def test_the_list_of_the_folder_of_sheets_fits_a_telephone(server: Product, page: Page, tmp_path: Path) -> None:
    store, lead = Store(server.data / "desk.sqlite3"), Person("tomasz", "Tomasz Brandl", Role.LEAD)
    laying_out.lay_out(store, lead, tmp_path, server.url, datetime.fromisoformat(server.now), shell=0)
    page.set_viewport_size(ViewportSize(**desk.PHONE))
    page.set_content((tmp_path / "current-sheets" / "index.html").read_text(encoding="utf-8"))
    expect(page.get_by_text("S-2026-00010")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") == desk.PHONE["width"]


def test_a_click_is_seen_within_a_tenth_of_a_second(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page)
    waited = page.evaluate("""async () => {
      const seen = [];
      for (const size of ['large', 'small', 'large', 'small', 'large']) {
        const button = document.querySelector(`[data-choice="rear-window.${size}"]`);
        const start = performance.now();
        button.click();
        while (button.getAttribute('aria-pressed') !== 'true') await new Promise(requestAnimationFrame);
        seen.push(performance.now() - start);
        await new Promise((done) => setTimeout(done, 300));
      }
      return seen;
    }""")
    assert statistics.median(waited) < 100


def test_german_leaves_no_english_behind(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    page.get_by_role("button", name="Deutsch").click()
    desk.small_window_coupe(page)
    desk.choice(page, "roof.folding").click()
    # The one country whose German name has an English word in it, by the Unicode CLDR.
    seen = page.locator("body").inner_text().replace("Isle of Man", "")
    english = re.findall(r"\b(the|and|with|of|your|not|open|closed|chosen|usual|choose|shell|quotation)\b", seen)
    assert english == []
    expect(desk.stamp(page)).to_contain_text("Sobald")
    expect(desk.total(page)).to_have_text(re.compile(r"17\.064,00\s£"))


WORDS = TOP / "frontend/words"

#: "" for what most pages say, "dealers." for what a dealer's say.
PARTS = sorted(path.name.removesuffix("en.js") for path in WORDS.glob("*en.js"))


def keys(language: str, part: str = "") -> list[str]:
    return re.findall(r"^  '([^']+)': '.+',$", (WORDS / f"{part}{language}.js").read_text(), re.MULTILINE)


@pytest.mark.parametrize("part", PARTS)
def test_both_languages_say_the_same_things(part: str) -> None:
    assert keys("en", part) == keys("de", part) == sorted(set(keys("en", part)))
    assert keys("en", part)


def test_every_text_is_written_in_one_place() -> None:
    every = [key for part in PARTS for key in keys("en", part)]
    assert len(every) == len(set(every)) > 200


def test_every_file_of_words_is_spoken_in_both_languages() -> None:
    for language, name in (("en", "english"), ("de", "german")):
        named = re.findall(r"from '../words/(.*)';", (WORDS.parent / f"state/{name}.js").read_text())
        assert sorted(named) == sorted(f"{part}{language}.js" for part in PARTS)


def test_every_text_that_the_pages_use_is_written() -> None:
    known = {key for part in PARTS for key in keys("en", part)}
    sources = [path.read_text() for path in (TOP / "frontend").rglob("*.js") if "node_modules" not in path.parts]
    used = {key for source in sources for key in re.findall(r"\bt\('([\w.-]+)'", source)}
    assert used - known == set()
