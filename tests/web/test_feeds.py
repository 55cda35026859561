"""Calendar feeds: made at the desk, read without a sign-in by whoever holds the address, gone once they are revoked."""

from __future__ import annotations

import pytest

from app.domain.asking.people import Role
from app.services.planning import subscribing
from app.store import people
from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key

AT = "/api/calendar-feeds"


def made(reader: Reader, label: str = "My telephone") -> tuple[int, str]:
    """Its number, and its path on the desk."""
    answer = reader.post(AT, {"label": label}, **fresh_key())
    assert answer.status_code == 201, answer.text
    body = answer.get_json()
    return body["id"], "/api/" + body["address"].partition("/api/")[2]


def test_whoever_holds_the_address_reads_the_calendar_without_a_sign_in(desk: Desk) -> None:
    _, path = made(desk.signed_in("idris"))
    answer = desk.stranger().get(path)
    assert (answer.status_code, answer.mimetype) == (200, "text/calendar")
    assert answer.data.startswith(b"BEGIN:VCALENDAR\r\n")
    assert b"SUMMARY:Summer closure\r\n" in answer.data
    assert answer.headers["Cache-Control"].startswith("private")
    assert "Set-Cookie" not in answer.headers


def test_a_wrong_address_a_revoked_one_and_one_whose_maker_may_not_read_any_more_are_one_and_the_same_nothing(
    desk: Desk,
) -> None:
    owner = desk.signed_in("tomasz")
    feed, revoked = made(owner)
    _, stale = made(owner)
    assert owner.send("DELETE", f"{AT}/{feed}").get_json()["live"] is False
    stranger = desk.stranger()
    _, gone = made(desk.signed_in("oona"))
    assert [stranger.get(path).status_code for path in (revoked, stale, gone)] == [404, 200, 200]
    with desk.store.writing() as db:
        db.execute("UPDATE person SET role = ?, dealer = 'bayou-road' WHERE name = 'tomasz'", [Role.DEALER.value])
        people.disable(db, "oona", desk.clock())
    answers = [stranger.get(path) for path in (f"{AT}/nobody-knows-it.ics", revoked, stale, gone)]
    assert [answer.status_code for answer in answers] == [404] * 4
    assert len({answer.data for answer in answers}) == 1
    assert len({tuple(sorted(answer.headers.items())) for answer in answers}) == 1


def test_the_address_is_shown_once_and_only_its_hash_is_kept(desk: Desk) -> None:
    owner, key, body = desk.signed_in("imogen"), fresh_key(), {"label": "My telephone"}
    first, again = (owner.post(AT, body, **key).get_json() for _ in range(2))
    assert (first["id"], again["address"]) == (again["id"], None)
    secret = first["address"].rpartition("/")[2].removesuffix(".ics")
    assert len(secret) == 43  # 256 bits, six to a letter
    assert secret not in owner.get(AT).text
    desk.store.close()
    held = b"".join(file.read_bytes() for file in desk.config.data.iterdir() if file.is_file())
    assert b"My telephone" in held
    assert secret.encode() not in held


def test_the_list_says_when_a_feed_was_last_read_and_who_revoked_it(desk: Desk) -> None:
    owner = desk.signed_in("oona")
    feed, path = made(owner)
    assert [one["used_at"] for one in owner.get(AT).get_json()["feeds"]] == [None]
    desk.clock.pass_seconds(3600)
    desk.stranger().get(path)
    (one,) = owner.get(AT).get_json()["feeds"]
    assert (one["used_at"], one["live"]) == ("2026-11-25T10:00:00+00:00", True)
    revoked = desk.signed_in("piers").send("DELETE", f"{AT}/{feed}").get_json()
    assert (revoked["revoked_by_name"], revoked["made_by_name"]) == ("Piers Adeyemi", "Oona Reyes")


def test_each_sees_and_revokes_his_own_the_manager_everybody_s(desk: Desk) -> None:
    own, other = (made(desk.signed_in(name))[0] for name in ("imogen", "tomasz"))
    seen = {name: [one["id"] for one in desk.signed_in(name).get(AT).get_json()["feeds"]]
            for name in ("imogen", "piers")}  # fmt: skip
    assert seen == {"imogen": [own], "piers": [other, own]}
    assert desk.signed_in("imogen").send("DELETE", f"{AT}/{other}").status_code == 404
    assert desk.signed_in("nell").get(AT).status_code == 403


def test_who_asks_too_often_waits_whether_he_knows_a_feed_or_guesses(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(subscribing, "MOST_A_MINUTE", 2)
    _, path = made(desk.signed_in("imogen"))
    guessing = [desk.stranger().get(f"{AT}/guess-{n}.ics").status_code for n in range(3)]
    assert guessing == [404, 404, 429]
    assert [desk.stranger().get(path).status_code for _ in range(3)] == [200, 200, 429]  # a guesser keeps nobody away
    told = desk.stranger().get(path)
    assert (told.get_json()["type"], told.headers["Retry-After"]) == ("/problems/feed-too-often", "61")
    desk.clock.pass_seconds(61)
    assert desk.stranger().get(path).status_code == 200


def test_a_feed_speaks_the_language_of_who_made_it(desk: Desk) -> None:
    owner = desk.signed_in("imogen")
    owner.patch("/api/session", {"language": "de"})
    _, path = made(owner)
    assert b"NAME:Kalender der Werkstatt" in desk.stranger().get(path, Accept_Language="en").data


def test_a_feed_without_a_name_is_not_made(desk: Desk) -> None:
    told = desk.signed_in("imogen").post(AT, {"label": "  "}, **fresh_key())
    assert (told.status_code, list(told.get_json()["errors"])) == (422, ["label"])
