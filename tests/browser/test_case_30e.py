"""Case 30e: a tablet was without a signal while a concession was granted. Nothing is lost, and nothing overwritten."""

from __future__ import annotations

import re
from typing import Any
from uuid import uuid4

from playwright.sync_api import Locator, Page, expect

from tests.browser.deeds import TABLET
from tests.browser.test_every_reader import faults
from tests.browser.test_inspection import type_in
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


def pick(page: Page, shell: Any, subject: Any) -> None:
    """The inspector opens the shell from its serial and goes to one point."""
    page.goto(f"{page.url.split('/floor')[0]}/inspections")
    page.get_by_label("Serial of a shell").fill(shell["serial"])
    page.get_by_role("button", name="Open").click()
    group = page.locator(".inspect-group", has_text=subject["says"]).first
    group.locator("summary").click()
    group.locator(".inspect-row", has_text=subject["label"]).click()
    expect(page.locator(".inspect-point h2")).to_contain_text(subject["label"])


def looked_at(desk: Desk, shell: Any, about: str) -> Any:
    """What is read at the point that the concession is about."""
    subjects = desk.get(f"/api/shells/{shell['id']}/inspection")["subjects"]
    return next(one for one in subjects if (one["about"], one["kind"]) == (about, "gap"))


def sign_one(page: Page, shell: Any) -> None:
    here = card(page, shell)
    here.get_by_role("button", name=re.compile("^Sign for welds")).click()
    here.locator(".zone-tick").first.click()
    here.get_by_label("Who did it").select_option("idris")
    here.get_by_label("Personal code").fill("3305")
    here.get_by_role("button", name="Sign for 1").click()
    expect(here.locator(".unsent-of")).to_contain_text("Welded by Idris Vale")


def test_case_30e_readings_are_kept_and_laid_beside_what_was_said_meanwhile(server: Product, page: Page) -> None:
    manager, another = (Desk(server.url, name, server.passwords[name]) for name in ("piers", "oona"))
    floor = manager.get("/api/floor")
    (shell, asked), welded = asked_about(floor), to_weld(floor)
    subject = looked_at(another, shell, asked["subject"])
    page.set_viewport_size(TABLET)
    server.sign_in(page, "oona")
    page.goto(f"{server.url}/floor")
    expect(card(page, welded).get_by_role("button", name=re.compile("^Sign for welds"))).to_be_visible()
    page.context.set_offline(True)
    sign_one(page, welded)
    page.context.set_offline(False)
    unsent = page.locator("#unsent")
    expect(unsent.get_by_label("Personal code of Idris Vale, once more")).to_be_visible()
    assert "3305" not in page.evaluate("JSON.stringify({...localStorage, ...sessionStorage})")

    pick(page, shell, subject)
    expect(unsent).to_contain_text("Unsent: 1")
    page.context.set_offline(True)
    type_in(page, "5.4")
    page.get_by_role("button", name="Take it, and next").click()
    expect(unsent).to_contain_text("Unsent: 2")
    read(another, shell, subject, "5.9")
    (waits,) = manager.get("/api/concessions")["concessions"]
    assert [(one["finding"], one["says"]) for one in waits["since"]] == [
        (subject["id"], f"Asked for at {asked['measured']}; now 5.9 mm.")
    ]
    said = {"answer": "granted", "reason": "The customer has seen it."}
    manager.create(f"/api/shells/{shell['id']}/concessions/{asked['id']}/answer", said)
    taken = read(another, shell, subject, "5.6")
    page.context.set_offline(False)

    both = unsent.locator(".unsent-bar__both")
    expect(both).to_contain_text("5.4 mm")
    expect(both).to_contain_text("5.6, Oona Reyes")
    expect(both).to_contain_text("concession granted by Piers Adeyemi. The customer has seen it.")
    assert faults(page) == "[]"
    assert looked_at(another, shell, asked["subject"])["reading"]["value"] == taken
    unsent.get_by_role("button", name="Send mine too").click()
    expect(unsent).to_contain_text("Unsent: 1")
    after = looked_at(another, shell, asked["subject"])
    assert {"5.4", "5.6"} <= {one["value"] for one in [after["reading"], *after["earlier"]]}
    (stands,) = manager.get(f"/api/shells/{shell['id']}")["concessions"]
    assert (stands["standing"], stands["measured"]) == ("granted", asked["measured"])

    unsent.get_by_label("Personal code of Idris Vale, once more").fill("3305")
    unsent.get_by_role("button", name="Sign and send").click()
    expect(unsent).to_have_count(0)
    signed = [one for zone in manager.get(f"/api/shells/{welded['id']}")["zones"] for one in zone["signed"]]
    assert signed[-1]["welder_name"] == "Idris Vale"


def read(desk: Desk, shell: Any, subject: Any, value: str) -> str:
    """The same point, read by somebody else with the desk in reach."""
    gauges = desk.get(f"/api/shells/{shell['id']}/inspection")["gauges"]
    gauge = next(one["id"] for one in gauges if one["sort"] == subject["gauge_sort"] and one["good"])
    taken = {"key": uuid4().hex, "subject": subject["id"], "value": value, "unit": subject["unit"], "gauge": gauge}
    body = {"readings": [{**taken, "at": "2026-11-25T09:00:00+00:00"}]}
    desk.create(f"/api/shells/{shell['id']}/inspection/readings", body)
    return value
