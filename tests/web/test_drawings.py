"""The shell drawing over HTTP: what it shows follows the answers, in the reader's language, and no amount is in it."""

from __future__ import annotations

from typing import Any

from tests.web.conftest import OWNER, Desk


def drawing(desk: Desk, chosen: dict[str, str], name: str = "imogen", **more: Any) -> dict[str, Any]:
    reader = desk.signed_in(name)
    answer = reader.post("/api/drawings", {"specification": reader.specification(**chosen), **more})
    assert answer.status_code == 200, answer.get_json()
    found: dict[str, Any] = answer.get_json()["drawing"]
    return found


def part(drawing: dict[str, Any], option: str) -> dict[str, Any]:
    (found,) = (part for part in drawing["parts"] if part["option"] == option)
    return found


def test_the_chosen_choice_has_its_element_and_says_how_it_stands(desk: Desk) -> None:
    shown = part(drawing(desk, {"bonnet": "aluminium"}), "bonnet")
    assert (shown["element"], shown["choice"], shown["state"]) == ("bonnet/aluminium", "aluminium", "chosen")
    assert {path["width"] for path in shown["paths"]} == {2.4}
    assert shown["words"] == "Bonnet: Aluminium (chosen, heavy line)"


def test_the_list_is_made_of_the_parts(desk: Desk) -> None:
    shown = drawing(desk, {})
    assert shown["lines"] == [part["words"] for part in shown["parts"] if part["words"]]
    assert len(shown["lines"]) == 21


def test_where_rules_bite_the_answers_that_clash_are_hatched_with_their_ids(desk: Desk) -> None:
    shown = drawing(desk, {"bumpers": "impact"}, donor={"series": "s3"})
    hatched = {part["option"]: part["rules"] for part in shown["parts"] if part["rules"]}
    assert hatched == {"series": ["D1"], "bumpers": ["D1", "D2", "D14"], "rail-ends": ["D2"], "wheel-well": ["D14"]}
    assert part(shown, "bumpers")["state"] == "closed"
    assert part(shown, "bumpers")["words"].endswith("(can’t stand, hatched: D1, D2, D14)")
    assert part(shown, "body")["state"] == "usual"


def test_another_hand_is_another_picture(desk: Desk) -> None:
    right, left = (drawing(desk, {"steering": hand}) for hand in ("right", "left"))
    for option in ("steering", "dash", "wipers"):
        assert part(right, option)["paths"] != part(left, option)["paths"]
    assert part(right, "bumpers") == part(left, "bumpers")


def test_it_speaks_the_readers_language_or_the_one_asked_for(desk: Desk) -> None:
    assert drawing(desk, {}, language="de")["title"] == "Zeichnung der Karosserie, Seitenansicht und Draufsicht: " + (
        "Rohkarossen für den Skerry"
    )
    assert drawing(desk, {})["title"] == "Drawing of the shell, side and plan: Skerry body shells"


def test_side_and_plan_stand_one_below_the_other_or_abreast(desk: Desk) -> None:
    tall, wide = (drawing(desk, {}, arrangement=arrangement) for arrangement in ("stacked", "abreast"))
    assert tall["width"] / tall["height"] < 1.3
    assert wide["width"] / wide["height"] > 3


def test_the_dealer_sees_it_while_prices_are_hidden(desk: Desk) -> None:
    assert len(drawing(desk, {}, OWNER)["parts"]) > 20


def test_a_misspelt_option_is_refused_as_anywhere(desk: Desk) -> None:
    reader = desk.signed_in("imogen")
    refused = reader.post("/api/drawings", {"specification": {"bonet": {"choice": "steel"}}, "arrangement": "round"})
    assert (refused.status_code, refused.get_json()["type"]) == (422, "/problems/bad-input")
    assert list(refused.get_json()["errors"]) == ["arrangement"]
