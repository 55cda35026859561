"""Gauges as the inspector's list shows them."""

from __future__ import annotations

from datetime import UTC, datetime

from tests.web.conftest import Desk
from tests.web.reader import fresh_key


def test_a_gauge_is_out_of_date_from_midnight_where_the_firm_is(desk: Desk) -> None:
    """In July that is 23:00 UTC."""
    desk.clock.at = datetime(2027, 7, 14, 22, 59, tzinfo=UTC)
    inspector = desk.signed_in("oona")
    gauge = {"mark": "F-01", "sort": "feeler", "calibrated": "2026-11-20", "due": "2027-07-14"}
    (made,) = inspector.post("/api/gauges", gauge, **fresh_key()).get_json()["gauges"]
    desk.clock.pass_seconds(60)
    (shown,) = inspector.get("/api/gauges").get_json()["gauges"]
    assert (made["good"], shown["good"]) == (True, False)
