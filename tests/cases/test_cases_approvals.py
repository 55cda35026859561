"""Cases 3, 4 and 10 as far as the manager's yes goes: asked for, answered, and dead when the structure changes."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest

from tests.cases.desk import Choices, Desk, Quoted, private, quote, trade
from tests.cases.ordered import accept
from tests.support.product import Product

NA_S3 = {"series": "s3", "market": "north-america", "body": "roadster"}
NO_MARKERS = {**NA_S3, "markers": "none"}


@pytest.fixture
def manager(server: Product) -> Desk:
    return Desk(server.url, "piers", server.passwords["piers"])


@pytest.fixture
def wade(server: Product) -> Desk:
    dealer = Desk(server.url, "wade", server.passwords["wade"])
    dealer.show_prices()
    return dealer


def whole(desk: Desk, chosen: Choices, donor: Any = None) -> Choices:
    """The chosen shell with all else as original, on a dolly, collected."""
    keys = {key: chosen[key] for key in ("series", "market", "body")}
    return {**desk.usual(donor, **keys), "packing": "dolly", "delivery": "collected", **chosen}


def needs(desk: Desk, quoted: Quoted, letter: str = "A") -> Any:
    return desk.get(f"/api/quotations/{quoted.number}/revisions/{letter}/approvals")


def ask(desk: Desk, quoted: Quoted, rule: str, note: str = "", expect: int = 201) -> Any:
    version = desk.get(quoted.revision)["version"]
    headers = {"If-Match": f'"{version}"', "Idempotency-Key": uuid4().hex}
    body = {"line": 1, "rule": rule, "note": note}
    return desk.send("POST", f"{quoted.revision}/approvals", body, headers, expect=expect)


def say(desk: Desk, approval: int, answer: str, reason: str, expect: int = 200) -> Any:
    body = {"answer": answer, "reason": reason}
    return desk.send("POST", f"/api/approvals/{approval}/answer", body, {"Idempotency-Key": uuid4().hex}, expect=expect)


def test_case_10_no_markers_waits_for_a_named_manager_with_date_and_reason(clerk: Desk, manager: Desk) -> None:
    quoted = quote(clerk, private("US", "Odile Marsh"), to="GB")
    filled = quoted.fill((whole(clerk, NO_MARKERS), 1))
    depends = filled["lines"][0]["answer"]["depends"]
    assert (depends["approvals"], "A5" in depends["cautions"]) == (["A5"], True)
    ask(clerk, quoted, "A5", "For a race car that never sees a road.")
    (need,) = needs(clerk, quoted)["approvals"]
    assert (need["met"], need["approval"]["stage"], need["approval"]["asked_by_name"]) == (
        False,
        "waiting",
        "Imogen Faulk",
    )
    given = say(manager, need["approval"]["id"], "granted", "Race use only, in writing.")
    (act,) = given["approval"]["acts"]
    assert (act["by_name"], act["day"], act["reason"]) == ("Piers Adeyemi", "2026-11-25", "Race use only, in writing.")
    after = needs(clerk, quoted)
    assert (after["open"], after["approvals"][0]["met"]) == (0, True)
    assert clerk.get(quoted.revision)["lines"][0]["answer"]["verdicts"][0] == "once"  # the answer itself stays


@pytest.mark.parametrize(
    "otherwise",
    [{"bonnet": "aluminium"}, {"series": "s4", "dash": "wrapped"}, {"markers": "front"}, {"wipers": "two"}],
)
def test_case_10_it_dies_when_any_other_structural_choice_changes(
    clerk: Desk, manager: Desk, otherwise: Choices
) -> None:
    quoted = quote(clerk, private("US", "Odile Marsh"), to="GB")
    quoted.fill((whole(clerk, NO_MARKERS), 1))
    say(manager, ask(clerk, quoted, "A5")["id"], "granted", "Race use only.")
    shell = {**whole(clerk, NO_MARKERS), **otherwise}
    if shell["series"] == "s4":
        shell |= {"bumpers": "impact", "wheel-well": "shallow", "rail-ends": "boxed"}
    quoted.fill((shell, 1))
    assert needs(clerk, quoted)["open"] == 1


def test_case_10_a_colour_does_not_kill_it(clerk: Desk, manager: Desk) -> None:
    quoted = quote(clerk, private("US", "Odile Marsh"), to="GB")
    quoted.fill((whole(clerk, NO_MARKERS), 1))
    say(manager, ask(clerk, quoted, "A5")["id"], "granted", "Race use only.")
    painted = {"finish": "painted", "primer": "epoxy-and-filler", "scope": "outside", "colour": "moss"}
    quoted.fill(({**whole(clerk, NO_MARKERS), **painted}, 1))
    assert needs(clerk, quoted)["open"] == 0


def test_case_10_a_dealer_asks_and_never_answers(wade: Desk, manager: Desk) -> None:
    quoted = quote(wade, trade("bayou-road", "US", "Bayou Road"), price_list="USD", to="GB")
    quoted.fill((whole(wade, NO_MARKERS), 1))
    asked = ask(wade, quoted, "A5")
    refused = say(wade, asked["id"], "granted", "I know my customer.", expect=403)
    assert refused["type"] == "/problems/may-not"
    refused = say(manager, asked["id"], "refused", "Not for a road car.")
    assert refused["stage"] == "refused"
    assert needs(wade, quoted)["open"] == 1


def test_case_10_a_dealer_who_lets_it_out_is_not_silently_allowed(wade: Desk, manager: Desk) -> None:
    quoted = quote(wade, trade("bayou-road", "US", "Bayou Road"), price_list="USD", to="GB")
    quoted.fill((whole(wade, NO_MARKERS), 1))
    quoted.issue()
    (need,) = needs(wade, quoted)["approvals"]
    assert (need["rule"], need["met"], need["approval"]["stage"]) == ("A5", False, "waiting")
    waiting = [row["approval"]["number"] for row in manager.get("/api/approvals?stage=waiting")["approvals"]]
    assert quoted.number in waiting


def test_case_04_the_converted_hand_is_looked_at_by_the_manager(clerk: Desk, manager: Desk) -> None:
    donor = {"number_text": "T2-09001", "series": "s2", "number": 9001, "established": True}
    quoted = quote(clerk, private("GB", "Rupert Vale"), donor=donor)
    wish = {"series": "s2", "market": "north-america", "body": "roadster", "steering": "right"}
    filled = quoted.fill((whole(clerk, wish, {"series": "s2", "number": 9001}), 1))
    assert filled["lines"][0]["answer"]["verdicts"] == ["once", "not-as-had"]
    asked = ask(clerk, quoted, "A1", "Converted years ago; the owner wants to keep it.")
    row = manager.get(f"/api/approvals/{asked['id']}")
    unusual = [one["option"] for one in row["specification"] if one["unusual"]]
    assert (unusual, row["reason"]["en"]) == (
        ["steering"],
        "This hand was not sold in that market: the manager looks at it first.",
    )
    quoted.issue()
    accept(quoted, "A")
    order = clerk.get(f"/api/quotations/{quoted.number}/order")["number"]
    assert [line["awaits"] for line in clerk.get(f"/api/orders/{order}")["lines"]] == [["A1"]]
    say(manager, asked["id"], "granted", "The bulkhead is the home one; no tool stands against it.")
    assert needs(clerk, quoted)["open"] == 0
    (line,) = clerk.get(f"/api/orders/{order}")["lines"]
    assert (line["approvals"], line["awaits"]) == (["A1"], [])


def test_case_03_the_s4_shell_for_an_s3_car_needs_no_manager(clerk: Desk) -> None:
    donor = {"number_text": "T3-12044", "series": "s3", "number": 12044, "established": True}
    quoted = quote(clerk, private("GB", "Rupert Vale"), donor=donor)
    shell = whole(clerk, {"series": "s4", "market": "home", "body": "roadster"}, {"series": "s3", "number": 12044})
    filled = quoted.fill((shell, 1))
    assert "C1" in filled["lines"][0]["answer"]["depends"]["cautions"]
    assert needs(clerk, quoted) == {"approvals": [], "open": 0}
    refused = ask(clerk, quoted, "A1", expect=422)
    assert refused["type"] == "/problems/needs-no-approval"
