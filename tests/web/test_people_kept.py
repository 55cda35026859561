"""A manager adds somebody over the wire: the first password opens one thing alone, and is told once."""

from __future__ import annotations

from tests.web.conftest import Desk
from tests.web.reader import fresh_key

ROSA = {"name": "rosa", "display_name": "Rosa Teale", "role": "dealer", "dealer": "lindenhof", "language": "de"}


def test_a_first_password_is_told_once_and_opens_nothing_but_the_choice_of_an_own_one(desk: Desk) -> None:
    manager, key = desk.signed_in("piers"), fresh_key()
    told = manager.post("/api/people", ROSA, **key)
    again = manager.post("/api/people", ROSA, **key)
    assert (told.status_code, again.get_json()["password"]) == (201, None)
    rosa = desk.stranger()
    assert rosa.sign_in("rosa", told.get_json()["password"]).get_json()["first_password"] is True
    refused = rosa.get("/api/quotations")
    assert (refused.status_code, refused.get_json()["type"].rpartition("/")[2]) == (403, "own-password-first")
    chosen = {"current": told.get_json()["password"], "new": "vier verschiedene wörter"}
    assert rosa.put("/api/password", chosen).get_json()["first_password"] is False
    assert rosa.get("/api/quotations").status_code == 200
    page = manager.get("/api/people/rosa").get_json()
    assert [(entry["kind"], entry["by"]) for entry in page["deeds"]] == [("password-chosen", "rosa")]
    assert page["history"][-1]["what"] == "Rosa Teale added, with a first password."


def test_whoever_is_disabled_is_out_with_the_next_request(desk: Desk) -> None:
    greta, manager = desk.signed_in("greta"), desk.signed_in("piers")
    assert greta.get("/api/quotations").status_code == 200
    assert manager.put("/api/people/greta/disabled", None).get_json()["disabled_at"]
    assert greta.get("/api/quotations").status_code == 401
    assert desk.stranger().sign_in("greta", "linden-tor").status_code == 401


def test_guessing_ones_own_password_is_made_to_wait_as_at_the_door(desk: Desk) -> None:
    imogen, guess = desk.signed_in("imogen"), {"current": "guess", "new": "four unlike words"}
    statuses = [imogen.put("/api/password", guess).status_code for _ in range(8)]
    assert (statuses[0], statuses[-1]) == (422, 429)
