"""From the office's confirmation to a stage signed at the tablet, as three people do it one after the other."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

from tests.browser.deeds import TABLET
from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk
from tests.support.product import Product

#: 15 mm are 57 pixels of CSS (96 to the inch, CSS Values and Units Level 3).
LEAST = 57


def ready_to_confirm(server: Product) -> str:
    """The last order of the demo that lacks nothing: no other test looks at it."""
    office = Desk(server.url, "imogen", server.passwords["imogen"])
    for row in office.get("/api/orders")["orders"]:
        order = office.get(f"/api/orders/{row['number']}")
        if not order["confirmed"] and not order["lacks"]:
            return str(row["number"])
    raise AssertionError("every order of the demo lacks something")


def check_the_kit(page: Page, card: Locator) -> None:
    """One line is short, and then a substitute that the inspector approved."""
    card.get_by_role("link", name="Check the kit").click()
    sills = page.get_by_role("group", name="Sills, inner and outer")
    sills.get_by_role("button", name="Short").click()
    page.get_by_role("button", name="All the rest is present").click()
    expect(page.locator(".floor-stop")).to_have_text(re.compile("Kit short: Sills"))
    sills.get_by_role("button", name="Substitute").click()
    page.get_by_label("What it is").fill("Folded by hand from 1.2 mm.")
    page.get_by_label("Who approved it").select_option("oona")
    page.get_by_role("button", name="Take the substitute").click()
    expect(page.locator(".floor-stop")).to_have_count(0)
    pressed = page.locator(".floor .button:visible").all()
    assert min(box["height"] for box in (one.bounding_box() for one in pressed) if box) >= LEAST
    assert faults(page) == "[]"
    page.get_by_role("link", name="Back to the floor").click()


def test_the_clerk_confirms_the_lead_releases_and_the_welder_signs_with_his_code(server: Product, page: Page) -> None:
    number = ready_to_confirm(server)
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/orders/{number}")
    page.get_by_role("button", name="Confirm the order").click()
    expect(page.get_by_role("link", name=re.compile("^Order confirmation"))).to_have_count(4)

    page.context.clear_cookies()
    page.set_viewport_size(TABLET)
    server.sign_in(page, "tomasz")
    page.goto(f"{server.url}/floor")
    card = page.locator(".floor-shell", has_text=f"Order {number}, shell 1 of").first
    expect(card.get_by_role("button", name="Release")).to_have_count(0)  # nobody has looked at its kit
    check_the_kit(page, card)
    card.get_by_role("button", name="Release").click()
    expect(card.locator("h3")).to_have_text(re.compile(r"S-2026-\d{5}"))
    card.get_by_role("button", name=re.compile("^Sign for welds")).click()
    card.get_by_role("button", name="Tick all of them").click()
    card.get_by_label("Who did it").select_option("idris")
    card.get_by_label("Personal code").fill("3305")
    card.get_by_role("button", name=re.compile(r"^Sign for \d")).click()
    card.get_by_role("button", name="Sub-assembly done").click()
    card.get_by_label("Who did it").select_option("idris")
    card.get_by_label("Personal code").fill("0000")
    card.get_by_role("button", name="Sign").click()
    expect(card).to_contain_text("Name and code don’t go together")
    card.get_by_label("Personal code").fill("3305")
    card.get_by_role("button", name="Sign").click()
    expect(card.get_by_role("button", name=re.compile("^Sign for welds"))).to_be_visible()
    card.get_by_text("More", exact=True).click()
    expect(card.locator(".history")).to_contain_text("Sub-assembly done signed by Idris Vale")
    pressed = page.locator(".floor .button:visible, .floor summary:visible").all()
    assert min(box["height"] for box in (one.bounding_box() for one in pressed) if box) >= LEAST
    expect(page.locator("main")).not_to_contain_text(re.compile("[£€$]"))
    assert faults(page) == "[]"
