"""A disk that takes nothing more: the reader is told, nothing is half kept, and it goes on once there is room."""

from __future__ import annotations

import logging

import pytest

from tests.web.conftest import Desk
from tests.web.reader import ENQUIRY, Reader, fresh_key


def fill_up(desk: Desk) -> None:
    """The database may not grow by another page: SQLite says what it says on a full disk."""
    with desk.store.reading() as db:
        pages = db.execute("PRAGMA page_count").fetchone()[0]
        db.execute(f"PRAGMA max_page_count = {pages}")


def make_room(desk: Desk) -> None:
    with desk.store.reading() as db:
        db.execute("PRAGMA max_page_count = 1000000")


def test_on_a_full_disk_nothing_is_half_kept_and_everything_can_still_be_read(
    desk: Desk, clerk: Reader, caplog: pytest.LogCaptureFixture
) -> None:
    number = clerk.quotation()
    fill_up(desk)
    with caplog.at_level(logging.ERROR):
        refused = clerk.issue(number)
    assert refused.status_code == 503
    assert refused.get_json()["type"] == "/problems/takes-nothing"
    assert "Nothing of this request was kept" in refused.get_json()["detail"]
    assert [record.getMessage() for record in caplog.records] == [
        "nothing can be kept: database or disk is full",
    ]
    assert clerk.get(f"/api/quotations/{number}").get_json()["state"] == "draft"
    make_room(desk)
    assert clerk.issue(number).status_code == 200


def test_what_cannot_be_taken_down_can_be_sent_again_under_the_same_key(desk: Desk, clerk: Reader) -> None:
    fill_up(desk)
    key, long = fresh_key(), {**ENQUIRY, "note": "A long story. " * 700}
    assert clerk.post("/api/enquiries", long, **key).status_code == 503
    make_room(desk)
    assert clerk.post("/api/enquiries", long, **key).status_code == 201
    assert len(clerk.get("/api/enquiries").get_json()["enquiries"]) == 1
