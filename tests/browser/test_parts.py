"""A customer's part at the tablet and at the desk: it is here, it fails, and what the customer can choose is shown."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser.deeds import TABLET
from tests.browser.test_every_reader import faults
from tests.browser.test_floor import LEAST
from tests.cases.desk import Desk
from tests.documents.test_photograph import file
from tests.support.product import Product


def here(server: Product) -> str:
    """The tag of the part that came this morning and nobody inspected: no other test looks at it."""
    lead = Desk(server.url, "tomasz", server.passwords["tomasz"])
    return next(str(part["tag"]) for part in lead.get("/api/parts")["parts"] if part["stands"] == "arrived")


def test_the_inspector_fails_a_window_ring_and_the_clerk_is_shown_what_can_be_done(server: Product, page: Page) -> None:
    tag = here(server)
    page.set_viewport_size(TABLET)
    server.sign_in(page, "oona")
    page.goto(f"{server.url}/parts")
    page.get_by_label("Number on the tag").fill(tag.lower())
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_text("not inspected")).to_be_visible()
    page.get_by_label("Cut clear all round").fill("152,5")
    page.get_by_label("Seat of the seal flat").fill("1.4")
    page.get_by_role("group", name="No perforation").get_by_label("No").check()
    page.get_by_label("Who inspected it").select_option("oona")
    page.get_by_label("Personal code").fill("2618")
    expect(page.get_by_role("button", name="Pass")).to_be_disabled()  # one is not met, one is blank
    page.get_by_role("button", name="Fail").click()
    expect(page.locator("main")).to_contain_text("No photograph yet")
    page.locator("input[type=file]").last.set_input_files(
        {"name": "corner.png", "mimeType": "image/png", "buffer": file("PNG", (64, 48))}
    )
    expect(page.get_by_role("img", name="Photograph")).to_have_count(1)
    page.get_by_label("Personal code").fill("2618")
    pressed = page.locator(".receipt .button:visible, .receipt summary:visible").all()
    assert min(box["height"] for box in (one.bounding_box() for one in pressed) if box) >= LEAST
    page.get_by_role("button", name="Fail").click()
    expect(page.locator(".receipt__verdict")).to_contain_text("signed by Oona Reyes")
    assert faults(page) == "[]"
    page.goto(f"{server.url}/floor")
    expect(page.locator(".floor-stop", has_text="P4 failed")).to_be_visible()
    expect(page.locator("main")).not_to_contain_text(re.compile("[£€$]"))

    page.context.clear_cookies()
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/parts/{tag}")
    # Case 11: the large window instead is 864.00 cheaper with tax.
    expect(page.locator(".receipt__way", has_text="Rear window: Large")).to_contain_text("−£864.00 with tax")
    expect(page.locator("main")).to_contain_text("stays this shell’s until the customer was asked")
    assert faults(page) == "[]"
    page.get_by_role("button", name="He wants to cancel").click()
    expect(page.locator("main")).to_contain_text("The customer wants to cancel")
