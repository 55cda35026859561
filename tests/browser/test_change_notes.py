"""A change that the customer signed is the sheet that is built by; the old one says so when it is scanned."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.test_every_reader import faults
from tests.cases.desk import Desk
from tests.documents.reading import codes
from tests.support.product import Product

#: A shell that another test stopped may be changed as well.
ON_THE_FLOOR = ("released", "in-build", "on-hold")


def in_build(office: Desk) -> Any:
    """The last shell of an order whose holes may still be closed and of which no change note waits; none of stock."""
    for shell in reversed(office.get("/api/floor")["shells"]):
        if not shell["letter"] or shell["sheet"] is None or shell["state"] not in ON_THE_FLOOR:
            continue
        found = office.get(f"/api/shells/{shell['id']}/change-notes")
        holes = next(one for one in found["shell"]["options"] if one["option"] == "holes")
        if not found["notes"] and holes["choice"] == "open" and holes["taken"] in ("free", "priced"):
            return shell
    raise AssertionError("every shell of the demo has closed holes")


def test_what_the_customer_signs_is_the_next_sheet_and_the_one_on_the_wall_says_stop(
    server: Product, page: Page
) -> None:
    office = Desk(server.url, "imogen", server.passwords["imogen"])
    shell = in_build(office)
    old = office.http.get(f"{server.url}{shell['sheet']['path']}").content
    # Outside: zxing-cpp reads the rendered page.
    (address,) = codes(old)
    server.sign_in(page, "imogen")
    page.goto(f"{server.url}/orders/{shell['order']}")
    page.get_by_role("link", name="Change notes and what may still change").nth(shell["shell"] - 1).click()
    page.get_by_label("Reversing-lamp holes").select_option("blanked")
    expect(page.locator(".weighed")).to_contain_text("Reversing-lamp holes: Open → Blanked")
    page.get_by_label("What the customer wants").fill("No lamps on his car.")
    page.get_by_role("button", name="Draw up the change note").click()
    note = page.locator(".change-note").first
    expect(note).to_contain_text("waits for the signature")
    assert faults(page) == "[]"
    note.get_by_role("button", name="Record the signature").click()
    note.get_by_label("Who signed for the customer").fill("The customer")
    note.get_by_role("button", name="Record the signature").last.click()
    expect(note).to_contain_text(re.compile("signed.*Signed by The customer on 25 Nov 2026", re.DOTALL))

    page.context.clear_cookies()
    page.goto(address)
    told = page.locator(".sheet-code")
    expect(told).to_contain_text("Stop: this sheet is out of date.")
    expect(told).not_to_contain_text(re.compile("revision|holes|S-2026"))
    server.sign_in(page, "tomasz")
    page.goto(address)
    expect(told).to_contain_text("Stop: fetch revision 2. Changed: Reversing-lamp holes.")
    expect(told.get_by_role("link", name=f"Build sheet {shell['serial']}, revision 2")).to_be_visible()
    page.goto(f"{server.url}/floor")
    card = page.locator(".floor-shell", has_text=shell["serial"])
    expect(card.get_by_role("link", name=re.compile("Build sheet, revision 2"))).to_be_visible()
