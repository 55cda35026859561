"""Case 9: the four-link bracket tool breaks at 10:40. What is built, promised and being written, before it is said."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from tests.cases.desk import Desk, choice_of, private, quote
from tests.cases.ordered import Ordered, accept
from tests.cases.test_cases_approvals import ask, needs, whole
from tests.cases.test_cases_approvals import say as answer
from tests.support.product import Product

CONSEQUENCES = "/api/tools/four-link-tool/consequences?state="
FOUR_LINK = {"series": "s3", "market": "home", "body": "roadster", "suspension": "four-link", "bonnet": "raised"}


def test_case_09_one_switch_with_the_day_of_return_and_quoting_goes_on(server: Product) -> None:
    lead = Desk(server.url, "tomasz", server.passwords["tomasz"])
    found = lead.get(f"{CONSEQUENCES}down")
    # 13 632 of 50 496 buildable structures, 27.0 %: the scenario's own counts.
    assert [found["relies"][name] for name in ("using", "structures", "percent")] == ["13632", "50496", "27.0"]
    assert [group["sort"] for group in found["touched"]] == ["accepted", "issued", "draft"]
    say(lead, {"state": "down", "until": "2027-12-16", "note": "The ram leaks."})
    try:
        answer = lead.as_original(FOUR_LINK)
        assert (answer["verdict"], answer["depends"]["tools"]) == ("not-as-had", ["four-link-tool"])
        assert "tools" in answer["ready"]["gates"]
    finally:
        say(lead, {"state": "ok"})


def test_case_09_lost_turns_them_to_never_and_only_the_manager_may_say_it(server: Product) -> None:
    manager, lead = (Desk(server.url, name, server.passwords[name]) for name in ("piers", "tomasz"))
    assert manager.get(f"{CONSEQUENCES}lost")["effect"] == "never"
    lead.send("GET", f"{CONSEQUENCES}lost", expect=403)
    say(manager, {"state": "lost", "note": "Stolen."})
    try:
        answer = lead.ask({})
        assert choice_of(answer, "suspension", "four-link")["state"] == "closed"
    finally:
        say(manager, {"state": "ok"})


def test_case_09_a_released_shell_that_is_not_past_the_operation_stops_though_frozen_and_the_one_past_it_goes_on(
    server: Product,
) -> None:
    clerk, lead, manager = (Desk(server.url, name, server.passwords[name]) for name in ("imogen", "tomasz", "piers"))
    past, not_past = released(confirmed(clerk, manager), lead)
    # by the demo's book the brackets are welded at the rollover fixture: the third stage
    for stage in ("sub-assembly", "framing", "rollover"):
        sign(lead, past, stage)
    found = lead.get(f"{CONSEQUENCES}down")
    serials = {one: lead.get(f"/api/shells/{one}")["serial"] for one in (past, not_past)}
    in_build = {sort: [one["serial"] for one in found["in_build"][sort]] for sort in ("past", "stopped")}
    assert in_build == {"past": [serials[past]], "stopped": [serials[not_past]]}
    assert [group["sort"] for group in found["touched"]] == ["accepted", "issued", "draft"]
    say(lead, {"state": "down", "until": "2026-12-16", "note": "The ram leaks."})
    try:
        sign(lead, past, "skinning")
        (fault,) = sign(lead, not_past, "sub-assembly", expect=409)["errors"]
        assert fault == "tools.four-link-tool"
        floor = {one["id"]: one for one in lead.get("/api/floor")["shells"]}
        assert [stop["says"] for stop in floor[not_past]["stops"]] == ["Tool out of order: Four-link bracket tool"]
        assert (floor[past]["stops"], floor[past]["stage"]) == ([], "fit-and-gap")
    finally:
        say(lead, {"state": "ok"})
    sign(lead, not_past, "sub-assembly")


def confirmed(clerk: Desk, manager: Desk) -> Ordered:
    """An order of two shells with the four-link axle, approved, paid for and confirmed."""
    quoted = quote(clerk, private(name="Ida Stroud"))
    quoted.fill((whole(clerk, FOUR_LINK), 2))
    for need in needs(clerk, quoted)["approvals"]:
        ask(clerk, quoted, need["rule"])
    for need in needs(clerk, quoted)["approvals"]:
        answer(manager, need["approval"]["id"], "granted", "For a car that is raced.")
    quoted.issue()
    accept(quoted, "A")
    order = Ordered(clerk, clerk.get(f"/api/quotations/{quoted.number}/order")["number"], quoted)
    order.deposit(order.read()["account"]["deposit"], "GBP")
    for gate in ("specification", "deposit"):
        order.post("/gates", {"gate": gate, "day": "2026-11-25"})
    order.post("/confirmation", {})
    return order


def released(order: Ordered, lead: Desk) -> list[int]:
    shells = [shell["id"] for line in order.read()["lines"] for shell in line["shells"]]
    for shell in shells:
        lead.create(f"/api/shells/{shell}/kit/rest", None)
        lead.create(f"/api/shells/{shell}/release", None)
    return shells


def sign(lead: Desk, shell: int, stage: str, *, expect: int = 201) -> Any:
    """The stage, done by the welder who made its welds."""
    zones = lead.get(f"/api/shells/{shell}")["zones"]
    left = [zone["zone"] for zone in zones if zone["stage"] == stage and not zone["signed"]]
    welder = {"by": "idris", "code": "3305"}
    if left:
        lead.create(f"/api/shells/{shell}/welds", {"zones": left, **welder})
    key = {"Idempotency-Key": uuid4().hex}
    return lead.send("POST", f"/api/shells/{shell}/stages", {"stage": stage, **welder}, key, expect=expect)


def say(who: Desk, entry: dict[str, str]) -> None:
    etag = who.http.get(f"{who.url}/api/tools").headers["ETag"]
    who.send("PUT", "/api/tools/four-link-tool", entry, {"If-Match": etag})
