"""Signing in and out, and making who guesses wait."""

from __future__ import annotations

from app.services.people.signing_in import hash_of
from tests.web.conftest import Desk


def test_signing_in_tells_who_and_what_he_may(desk: Desk) -> None:
    session = desk.signed_in("greta").get("/api/session").get_json()
    assert session["person"] == {
        "name": "greta",
        "display_name": "Greta Lindenhof",
        "role": "dealer",
        "dealer": "lindenhof",
        "dealer_name": "Werkstatt Lindenhof",
        "dealer_country": "DE",
        "dealer_price_list": "EUR",
        "language": "de",
    }
    seen = {
        "book",
        "tool",
        "dealer",
        "price",
        "code",
        "order",
        "document",
        "enquiry",
        "customer",
        "quotation",
        "approval",
        "api-token",
        "photograph",
        "request",
        "retail",
        "part",
        "despatch",
        "reservation",
    }
    assert set(session["may"]["read"]) == seen
    assert session["firm"]["name"] == "Ravensmoor Body Company"


def test_a_wrong_password_and_an_unknown_name_get_the_same_answer(desk: Desk) -> None:
    wrong = desk.stranger().sign_in("imogen", "not-this")
    unknown = desk.stranger().sign_in("nobody", "not-this")
    assert (wrong.status_code, wrong.data) == (401, unknown.data)


def test_signing_out_ends_it_on_the_server(desk: Desk) -> None:
    reader = desk.signed_in("imogen")
    cookie = reader.http.get_cookie("desk")
    assert cookie is not None
    assert reader.send("DELETE", "/api/session").status_code == 204
    reader.http.set_cookie("desk", cookie.value)
    assert reader.get("/api/session").status_code == 401


def test_a_sign_in_runs_out_after_twelve_hours(desk: Desk) -> None:
    reader = desk.signed_in("imogen")
    desk.clock.pass_seconds(12 * 3600 - 1)
    assert reader.get("/api/session").status_code == 200
    desk.clock.pass_seconds(1)
    assert reader.get("/api/session").status_code == 401


def test_neither_token_nor_password_is_kept_in_the_clear(desk: Desk) -> None:
    reader = desk.signed_in("imogen")
    cookie = reader.http.get_cookie("desk")
    assert cookie is not None
    with desk.store.reading() as db:
        kept = "\n".join(
            str(tuple(row)) for table in ("person", "sign_in") for row in db.execute(f"SELECT * FROM {table}")
        )
    assert cookie.value not in kept
    assert hash_of(cookie.value) in kept
    assert desk.passwords["imogen"] not in kept
    assert kept.count("$argon2id$") == len(desk.passwords)


def test_who_guesses_a_name_waits_longer_and_longer_and_even_the_right_password_waits(desk: Desk) -> None:
    stranger = desk.stranger()
    assert [stranger.sign_in("imogen", f"guess-{n}").status_code for n in range(5)] == [401] * 5
    held_up = stranger.sign_in("imogen", desk.passwords["imogen"])
    assert (held_up.status_code, held_up.headers["Retry-After"]) == (429, "4")
    assert "Wait 4 seconds" in held_up.get_json()["repair"]
    desk.clock.pass_seconds(4)
    assert stranger.sign_in("imogen", "guess-6").status_code == 401
    assert stranger.sign_in("imogen", "guess-7").headers["Retry-After"] == "8"
    desk.clock.pass_seconds(8)
    assert stranger.sign_in("imogen", desk.passwords["imogen"]).status_code == 200


def test_the_wait_is_stored_and_outlives_a_restart(desk: Desk) -> None:
    for n in range(5):
        desk.stranger().sign_in("imogen", f"guess-{n}")
    desk.__post_init__()
    assert desk.stranger().sign_in("imogen", "guess-6").status_code == 429


def test_one_address_that_tries_many_names_waits_for_all_of_them(desk: Desk) -> None:
    for n in range(20):
        desk.stranger().sign_in(f"name-{n}", "guess")
    assert desk.stranger().sign_in("tomasz", desk.passwords["tomasz"]).status_code == 429


def test_a_stranger_elsewhere_cannot_lock_somebody_out_for_long(desk: Desk) -> None:
    for n in range(60):
        stranger = desk.stranger()
        stranger.http.environ_base["REMOTE_ADDR"] = f"192.0.2.{n}"
        stranger.sign_in("imogen", "guess")
    desk.clock.pass_seconds(30)
    assert desk.signed_in("imogen").get("/api/session").status_code == 200


def test_the_reader_is_answered_in_his_own_language(desk: Desk) -> None:
    assert (
        desk.stranger().get("/api/session", Accept_Language="de-AT,de;q=0.9").get_json()["title"] == "Nicht angemeldet"
    )
    assert desk.stranger().get("/api/session", Accept_Language="fr").get_json()["title"] == "Not signed in"
    clerk = desk.signed_in("imogen")
    clerk.patch("/api/session", {"language": "de"})
    assert clerk.get("/api/enquiries/99999").get_json()["title"] == "Hier ist nichts"
