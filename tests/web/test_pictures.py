"""The donor car in three pictures over HTTP. What each case must show is in the cases' own words (2, 3 and 4)."""

from __future__ import annotations

from typing import Any

from tests.web.conftest import Desk
from tests.web.reader import Reader

Sides = tuple[str | None, str | None, str | None]


def rows(clerk: Reader, donor: dict[str, Any], stands: dict[str, str], **chosen: str) -> dict[str, Sides]:
    body = {"specification": clerk.specification(**chosen), "donor": donor, "stands": {"values": stands}}
    answer = clerk.post("/api/pictures", body)
    assert answer.status_code == 200, answer.get_json()
    found = answer.get_json()["rows"]
    return {row["option"]: (row["built"], row["stands"], row["ordered"]) for row in found}


def test_case_3_shows_identity_and_the_car_as_it_stands_beside_what_is_ordered(clerk: Reader) -> None:
    found = rows(clerk, {"series": "s3", "number": 12044}, {"series": "s4"}, series="s3")
    assert found == {
        "series": ("s3", "s4", "s3"),
        "bumpers": ("chrome", "impact", "chrome"),
        "wheel-well": ("deep", "shallow", "deep"),
        "dash": ("flat", "wrapped", "flat"),
        "rail-ends": ("plain", "boxed", "plain"),
    }


def test_a_converted_hand_is_shown_three_ways(clerk: Reader) -> None:
    found = rows(clerk, {"series": "s3", "number": 12044}, {"steering": "left"})
    assert found["steering"] == ("right", "left", "right")


def test_while_nobody_has_said_how_it_stands_that_side_is_not_known(clerk: Reader) -> None:
    assert rows(clerk, {"series": "s3", "number": 12044}, {}, bonnet="aluminium") == {
        "bonnet": ("steel", None, "aluminium")
    }


def test_ordered_as_built_and_nothing_said_leaves_no_row(clerk: Reader) -> None:
    assert rows(clerk, {"series": "s3", "number": 12044}, {}) == {}


def test_without_a_number_only_what_was_said_is_known(clerk: Reader) -> None:
    assert rows(clerk, {}, {"bumpers": "impact"}) == {"bumpers": (None, "impact", "chrome")}


def test_an_unknown_feature_is_named_with_its_place(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    answer = clerk.post("/api/pictures", {"specification": {}, "stands": {"values": {"wings": "gull"}}})
    assert answer.status_code == 422
    assert list(answer.get_json()["errors"]) == ["stands.wings"]
