"""Case 30e: a tablet was without a signal while a concession was granted. Nothing is lost, and nothing overwritten."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.browser.test_every_reader import faults
from tests.browser.test_floor import TABLET
from tests.cases.desk import Desk
from tests.support.product import Product


def asked_about(floor: Any) -> tuple[Any, Any]:
    """The shell of the demo on which somebody waits for a concession, and that concession."""
    return next((s, c) for s in floor["shells"] for c in s["concessions"] if c["standing"] == "asked")


def to_weld(floor: Any) -> Any:
    """A shell of the demo whose next stage has welds that nobody has signed for."""
    at = [shell for shell in floor["shells"] if shell["state"] == "in-build" and not shell["reworks"]]
    return next(s for s in at if any(z["stage"] == s["stage"] and not z["signed"] for z in s["zones"]))


def card(page: Page, shell: Any) -> Locator:
    return page.locator(f"#shell-{shell['id']}")


def ask_again(page: Page, shell: Any, about: str) -> None:
    """The inspector measures the same gap and asks with her own figure."""
    here = card(page, shell)
    here.get_by_text("Something else").click()
    here.get_by_role("button", name="Ask for a concession").click()
    here.get_by_label("About").select_option("Gaps")
    here.get_by_label("Which").select_option(about)
    here.get_by_label("What was measured").fill("5.4 mm")
    here.get_by_label("Why it may stay so").fill("Within what paint takes up.")
    here.get_by_role("button", name="Ask for the concession").click()
    expect(here.locator(".unsent-of")).to_contain_text("measured 5.4 mm")


def sign_one(page: Page, shell: Any) -> None:
    here = card(page, shell)
    here.get_by_role("button", name=re.compile("^Sign for welds")).click()
    here.locator(".zone-tick").first.click()
    here.get_by_label("Who did it").select_option("idris")
    here.get_by_label("Personal code").fill("3305")
    here.get_by_role("button", name="Sign for 1").click()
    expect(here.locator(".unsent-of")).to_contain_text("Welded by Idris Vale")


def test_what_was_entered_without_a_signal_is_kept_and_laid_beside_what_was_said_meanwhile(
    server: Product, page: Page
) -> None:
    manager = Desk(server.url, "piers", server.passwords["piers"])
    floor = manager.get("/api/floor")
    (shell, asked), welded = asked_about(floor), to_weld(floor)
    page.set_viewport_size(TABLET)
    server.sign_in(page, "oona")
    page.goto(f"{server.url}/floor")
    expect(card(page, shell)).to_be_visible()
    page.context.set_offline(True)
    ask_again(page, shell, asked["subject"])
    sign_one(page, welded)
    unsent = page.locator("#unsent")
    expect(unsent).to_contain_text("Unsent: 2")
    assert "3305" not in page.evaluate("JSON.stringify({...localStorage, ...sessionStorage})")

    said = {"answer": "granted", "reason": "The customer has seen it."}
    manager.create(f"/api/shells/{shell['id']}/concessions/{asked['id']}/answer", said)
    page.context.set_offline(False)
    both = unsent.locator(".unsent-bar__both")
    expect(both).to_contain_text("measured 5.4 mm")
    expect(both).to_contain_text("concession granted by Piers Adeyemi. The customer has seen it.")
    assert faults(page) == "[]"
    (stands,) = manager.get(f"/api/shells/{shell['id']}")["concessions"]
    assert stands["standing"] == "granted"

    unsent.get_by_role("button", name="Send mine too").click()
    expect(unsent).to_contain_text("Unsent: 1")
    after = manager.get(f"/api/shells/{shell['id']}")["concessions"]
    assert [(one["standing"], one["measured"]) for one in after] == [
        ("granted", asked["measured"]),
        ("asked", "5.4 mm"),
    ]
    unsent.get_by_label("Personal code of Idris Vale, once more").fill("3305")
    unsent.get_by_role("button", name="Sign and send").click()
    expect(unsent).to_have_count(0)
    expect(card(page, welded)).not_to_contain_text("unsent")
    signed = [one for zone in manager.get(f"/api/shells/{welded['id']}")["zones"] for one in zone["signed"]]
    assert signed[-1]["welder_name"] == "Idris Vale"
