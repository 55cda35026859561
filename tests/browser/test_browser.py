"""The browser that the tests use draws text: without a font Chromium gives no error and every text is 0 pixels high."""

from __future__ import annotations

from playwright.sync_api import Page


def test_the_browser_has_a_font_to_draw_with(page: Page) -> None:
    page.set_content("<p>Made to order</p>")
    box = page.locator("p").bounding_box()
    assert box is not None
    assert box["height"] > 10


def test_the_browser_runs_modules_and_script_sees_london_time(page: Page) -> None:
    page.set_content("<p></p><script type=module>document.querySelector('p').textContent = new Date(0)</script>")
    page.get_by_text("Thu Jan 01 1970 01:00:00 GMT+0100").wait_for()
