"""The manager looks at what was refused, follows a figure to its rows, and asks when a lost tool pays back."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.support.product import Product


def test_a_figure_leads_to_its_rows_and_a_lost_tool_to_when_it_pays_back(server: Product, page: Page) -> None:
    server.sign_in(page, "piers")
    page.get_by_role("link", name="what is watched").click()
    page.get_by_role("button", name="N1: ").press("Enter")
    expect(page.locator(".counted__rows .slip__link").first).to_contain_text("N1")
    assert faults(page) == "[]"

    page.set_viewport_size(ViewportSize(**desk.PHONE))
    tool = page.locator(".lost", has_text="Vented-scuttle press")
    tool.get_by_role("button", name="Say what remaking costs").press("Enter")
    tool.get_by_label("Cost of remaking").fill("14500")
    tool.get_by_label("Left over of each shell").fill("650")
    tool.get_by_role("button", name="Work it out").press("Enter")
    expect(tool).to_contain_text("Remaking this tool pays back after 23 shells.")
    expect(tool).to_contain_text("as Piers Adeyemi took it")
    assert faults(page) == "[]"
