"""The manager begins an outlook and looks at it while it goes on; a better order of weeks is asked for as data."""

from __future__ import annotations

import time

from tests.web.conftest import Desk
from tests.web.reader import fresh_key


def test_an_outlook_goes_from_nothing_to_done_and_says_what_was_kept(desk: Desk) -> None:
    piers = desk.signed_in("piers")
    before = piers.get("/api/outlook").get_json()
    assert (before["state"], before["line"], before["held"]) == ("none", 85, [])
    assert before["supposed"]["part_late"] == 15
    begun = piers.post("/api/outlook", {"years": 8, "seed": 3, "rework": 9})
    assert begun.status_code == 202
    found = begun.get_json()
    while found["state"] == "underway":
        assert found["of"] in (0, 24)
        time.sleep(0.05)
        found = piers.get("/api/outlook").get_json()
    assert (found["state"], found["width"], found["supposed"]["rework"]) == ("done", 10, 9)
    assert [one["planned"] for one in found["held"]] == [85, 90, 95]
    for one in found["held"]:
        assert one["curve"] == sorted(one["curve"])
        assert one["curve"][found["width"]] == one["kept"]
        assert one["curve"][one["nine_in_ten"]] >= 90
    assert "No shell has a slot yet" in found["basis"][0]


def test_what_can_not_be_supposed_is_said_field_by_field(desk: Desk) -> None:
    answer = desk.signed_in("piers").post("/api/outlook", {"rework": 101, "years": 0, "seed": "one"})
    assert answer.status_code == 422
    assert set(answer.get_json()["errors"]) == {"rework", "years", "seed"}


def test_better_weeks_of_an_empty_plan_are_none_and_an_invented_token_moves_nothing(desk: Desk) -> None:
    imogen = desk.signed_in("imogen")
    found = imogen.get("/api/better-weeks?weeks=2").get_json()
    assert (found["shells"], found["better"], found["whole"], found["proposal"]["moves"]) == (0, None, True, [])
    assert "none is better" in found["says"]
    refused = imogen.post("/api/better-weeks", {"weeks": 2, "token": "invented"}, **fresh_key())
    assert (refused.status_code, refused.get_json()["type"].rsplit("/", 1)[-1]) == (409, "plan-moved")
