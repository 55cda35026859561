"""Dates over HTTP: the range with its sentence, gates dated by hand, and moves that ask before they move."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from app import calendar
from app.domain.planning.slots import Act
from app.services.planning import promising
from app.store import slots
from tests.app.desk import CLERK
from tests.web.conftest import Desk, Work
from tests.web.reader import Reader, fresh_key

S3 = {
    option: {"choice": choice, "origin": "chosen"}
    for option, choice in {"series": "s3", "market": "home", "body": "roadster", "finish": "painted"}.items()
}


def date_gate(reader: Reader, order: str, body: dict[str, Any]) -> Any:
    return reader.post(f"/api/orders/{order}/gates", body, **fresh_key())


def test_the_promise_of_a_specification_says_what_binds_and_what_would_be_sooner(desk: Desk) -> None:
    told = desk.signed_in("imogen").post("/api/promises", {"specification": S3}).get_json()
    promise = told["promise"]
    assert promise["slot"] == "2026-12-02"
    # 41 working days from 2 December, with Christmas, its substitute day and New Year between: counted by hand
    assert promise["ready"] == "2027-02-02"
    assert promise["weeks"] == ["2027-W05", "2027-W07"]
    assert [step["stage"] for step in promise["steps"]][:2] == ["sub-assembly", "framing"]
    assert told["says"] == "Nothing but the work itself binds."
    assert "25 November 2026" in told["basis"]
    assert [(one["option"], one["choice"]) for one in told["sooner"]] == [("finish", "primed")]
    assert told["sooner"][0]["days"] == 20


def test_a_part_is_never_asked_for_by_today(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    coupe = clerk.specification(series="s2", body="coupe", rear_window="small")
    told = clerk.post("/api/promises", {"specification": coupe}).get_json()
    assert told["says"] == "As if your part (P4, Customer’s small window ring) passed on 25 November 2026."


def test_what_cant_be_built_has_no_date(desk: Desk) -> None:
    vented = {**S3, "scuttle": {"choice": "vented", "origin": "chosen"}}
    told = desk.signed_in("imogen").post("/api/promises", {"specification": vented}).get_json()
    assert (told["promise"], told["says"]) == (None, "What can’t be built is never ready.")


def test_a_tool_that_is_back_in_spring_binds_and_one_without_a_day_names_none(desk: Desk) -> None:
    manager = desk.signed_in("piers")

    def down(until: str | None) -> Any:
        said = {"state": "down", "note": "Snapped.", "until": until}
        manager.put("/api/tools/roadster-deck", said, If_Match=manager.get("/api/tools").headers["ETag"])
        return manager.post("/api/promises", {"specification": S3}).get_json()

    spring = down("2027-03-01")
    assert spring["promise"]["bindings"][0]["what"] == "tools"
    assert spring["says"].startswith("It waits for the tool Roadster deck")
    undated, far = down(None), down("2049-03-01")
    assert (undated["promise"], far["promise"]) == (None, None)
    assert undated["says"].startswith("No date can be named: nobody knows when Roadster deck")
    assert far["says"] == "No date can be named so far ahead."


def test_an_order_s_gate_is_dated_by_name_and_stands_in_the_history(busy_desk: Desk, worked: Work) -> None:
    clerk = busy_desk.signed_in("imogen")
    body = {"gate": "specification", "day": "2026-11-25"}
    told = date_gate(clerk, worked.order, body).get_json()
    gate = next(one for one in told["shells"][0]["gates"] if one["gate"] == "specification")
    assert (gate["day"], gate["opened"], gate["said_by_name"]) == ("2026-11-25", True, "Imogen Faulk")
    assert told["history"][-1]["what"] == "Signed specification dated 25 November 2026."
    assert told["shells"][0]["kept"] is None


def test_a_deposit_that_is_short_takes_no_slot_and_says_what_to_do(busy_desk: Desk, worked: Work) -> None:
    clerk = busy_desk.signed_in("imogen")
    refused = date_gate(clerk, worked.order, {"gate": "deposit", "day": "2026-11-24"})
    assert (refused.status_code, refused.get_json()["type"]) == (409, "/problems/deposit-short")


def test_the_dealer_reads_his_order_s_date_and_moves_nothing(busy_desk: Desk, worked: Work) -> None:
    greta = busy_desk.signed_in("greta")
    read = greta.get(f"/api/orders/{worked.order}/promises")
    assert read.status_code == 200
    assert read.get_json()["shells"][0]["now"]["ready"]
    moved = greta.post(f"/api/orders/{worked.order}/slots/what-moves", {"shell": 1, "day": None})
    assert moved.status_code == 403


def planned_later(desk: Desk, order: str) -> None:
    """Its shell has a slot and was rejected; another is planned in its place, a week later."""
    now = desk.clock()
    (shell,) = promising.order_dates(desk.store, CLERK, order, calendar.around, now).shells
    assert shell.now is not None
    with desk.store.writing() as db:
        promising.keep(db, CLERK, shell.seat, shell.wanted, Act.TAKEN, shell.now, now)
    goes = (order, 1, shell.now.slot + timedelta(days=7), False)
    (move,) = promising.propose(desk.store, CLERK, *goes, calendar.around, now).moves
    with desk.store.writing() as db:
        had = slots.promised(db, shell.seat)
        assert had is not None
        assert move.after is not None
        slots.promise_untold(db, had, move.after, had.route, CLERK.name, now)


@pytest.mark.parametrize(
    ("name", "can"), [("imogen", "“Move the slot” shows the letter"), ("greta", "schreiben Ihnen")]
)
def test_whoever_reads_that_a_promise_is_at_risk_reads_what_he_can_do_about_it(
    busy_desk: Desk, worked: Work, name: str, can: str
) -> None:
    planned_later(busy_desk, worked.order)
    (shell,) = busy_desk.signed_in(name).get(f"/api/orders/{worked.order}/promises").get_json()["shells"]
    assert shell["adrift"]
    assert can in shell["says"]
    assert ("dem Kunden" in shell["says"], "Tell the customer" in shell["says"]) == (False, name == "imogen")
    assert shell["kept"]["ready"] < shell["now"]["ready"]
    (followed,) = busy_desk.signed_in(name).get("/api/open-orders").get_json()["orders"]
    assert followed["when"]["says"] == shell["says"]
    assert followed["when"]["range"]["ready"] == shell["kept"]["ready"]
