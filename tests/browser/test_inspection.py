"""An inspection at the tablet: from the serial, on the keypad, out of reach for a while, never passed with blanks."""

from __future__ import annotations

import re
from datetime import datetime

from playwright.sync_api import Page, expect

from app.services.inspection import inspecting
from app.services.inspection.measuring import AHEAD
from app.store.db import Store
from rules.inspection.subject import Kind
from tests.app import inspected
from tests.browser.deeds import TABLET
from tests.browser.test_every_reader import faults
from tests.browser.test_floor import LEAST
from tests.cases.desk import Desk
from tests.support.product import Product


def half_read(server: Product) -> str:
    """The serial of the demo's shell that is at its inspection."""
    rows = Desk(server.url, "oona", server.passwords["oona"]).get("/api/inspections")["inspections"]
    return next(str(row["serial"]) for row in rows if row["due"])


def all_but_the_surface(server: Product) -> None:
    """Every other point of that shell is read within its limits, and every gap anew: others may have read some."""
    desk = Desk(server.url, "oona", server.passwords["oona"])
    (row,) = desk.get(f"/api/inspections?serial={half_read(server)}")["inspections"]
    store, now = Store(server.data / "desk.sqlite3"), datetime.fromisoformat(server.now)
    every = inspecting.inspection(store, inspected.TABLET, row["shell"], now).subjects
    inspected.read_all(store, row["shell"], now, without=("surface",))
    gaps = {one.id: inspected.good(one) for one in every if one.kind is Kind.GAP}
    # A tablet's clock goes on while the desk of a test stands still.
    inspected.read(store, row["shell"], gaps, now, at=now + AHEAD)


def type_in(page: Page, keys: str) -> None:
    for key in keys:
        page.locator(".keypad__key", has_text=re.compile(f"^{re.escape(key)}$")).click()


def test_the_inspector_reads_points_loses_the_desk_and_cannot_pass_with_blanks(server: Product, page: Page) -> None:
    page.set_viewport_size(TABLET)
    server.sign_in(page, "oona")
    page.goto(f"{server.url}/inspections")
    page.get_by_label("Serial of a shell").fill(half_read(server).lower())
    page.get_by_role("button", name="Open").click()
    tapers = page.locator(".inspect-failed", has_text="taper 1.1 mm, at most 1.0 mm")
    tapers.get_by_role("button", name="Send it back for rework").click()
    expect(tapers.get_by_label("What is to be mended")).to_be_visible()
    tapers.get_by_role("button", name="Leave it").click()

    point = page.locator(".inspect-point")
    expect(point).to_contain_text("Flush in metal")
    expect(point.locator(".keypad input")).to_have_value("")
    type_in(page, "0.4")
    point.get_by_role("button", name="Plus or minus").click()
    expect(point.locator(".keypad input")).to_have_value("−0.4")
    flush = page.locator(".inspect-group", has_text="Flush in metal")
    name = page.locator(".inspect-row[aria-current]").inner_text().split("\n")[1]
    point.get_by_role("button", name="Take it, and next").click()
    expect(flush.locator(".inspect-row", has_text=name)).to_contain_text("−0.4 mm")

    page.route("**/api/**", lambda route: route.abort())
    type_in(page, "0")
    point.get_by_role("button", name="Take it, and next").click()
    expect(page.locator("#unsent")).to_contain_text("Flush in metal")
    expect(page.locator(".inspect-verdict")).to_contain_text("still on this tablet")
    page.unroute("**/api/**")
    expect(page.locator("#unsent")).to_have_count(0, timeout=15_000)

    expect(page.locator(".inspect-verdict")).to_contain_text("nothing passes with blanks")
    verdicts = page.get_by_role("combobox", name="Verdict").locator("option").all_inner_texts()
    assert verdicts == ["rework", "reject"]
    expect(page.locator(".gap-map svg")).to_be_visible()
    pressed = page.locator(".inspection .button:visible, .keypad__key:visible, .inspection summary:visible").all()
    assert min(box["height"] for box in (one.bounding_box() for one in pressed) if box) >= LEAST - 10
    assert faults(page) == "[]"

    # Once the last point is read on the page that was opened with blanks, it is a pass that is proposed.
    all_but_the_surface(server)
    page.reload()
    verdict = page.get_by_role("combobox", name="Verdict")
    expect(verdict).to_have_value("reject")
    page.locator(".inspect-point").get_by_role("button", name="Yes").click()
    expect(verdict).to_have_value("pass")
