"""A draft that can't be built is counted once its answer is out; the manager reads it, and takes it away as a table."""

from __future__ import annotations

import csv
from io import StringIO

from tests.web.conftest import Desk

VENTED = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "vented"}


def test_a_kept_draft_that_cant_be_built_is_counted_and_leads_to_its_row_and_to_csv(desk: Desk) -> None:
    clerk, manager = desk.signed_in("imogen"), desk.signed_in("piers")
    number = clerk.quotation("GBP", "GB", **VENTED)
    found = manager.get("/api/watching").get_json()
    cause = next(one for one in found["causes"] if one["id"] == "N1")
    assert (cause["enquiries"], cause["shells"], found["refused"][0]["quotation"]) == (1, 1, number)
    text = manager.get("/api/watching.csv?of=refusals").get_data(as_text=True)
    (row,) = csv.DictReader(StringIO(text))
    assert (row["quotation"], row["rules_and_tools"], row["currency"]) == (number, "N1", "GBP")
    assert row["nearest_net"] == f"{found['refused'][0]['net'] / 100:.2f}"
    assert clerk.get("/api/watching").status_code == 403


def test_what_remaking_a_tool_is_taken_to_cost_stands_with_who_said_so(desk: Desk) -> None:
    said = {"cost": 14_500_00, "margin": 650_00, "currency": "GBP"}
    after = desk.signed_in("piers").put("/api/watching/tools/vented-scuttle-press", said).get_json()
    remaking = next(one for one in after["tools"] if one["id"] == "vented-scuttle-press")["remaking"]
    assert (remaking["pays_back_after"], remaking["by_name"]) == (23, "Piers Adeyemi")
