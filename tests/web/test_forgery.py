"""A change is made only by our own page: forgery token, origin, cookie."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.config import Config
from app.factory import make_app
from tests.web.conftest import Desk
from tests.web.reader import Reader
from tests.web.test_permissions import declared


def test_every_change_of_somebody_signed_in_needs_the_forgery_token(desk: Desk) -> None:
    reader = desk.signed_in("piers")
    reader.headers.clear()
    for method, rule, _ in declared(desk):
        if method != "GET" and (method, rule) != ("POST", "/api/session"):
            path = rule
            for part in ("<string:tool_id>", "<string(maxlength=40):number>", "<string(maxlength=4):letter>"):
                path = path.replace(part, "A")
            answer = reader.send(method, path.replace("<int(max=999999999):enquiry_id>", "1"), {})
            assert (answer.status_code, answer.get_json()["type"]) == (403, "/problems/forgery-suspected"), rule


def test_the_token_of_another_sign_in_is_worth_nothing(desk: Desk) -> None:
    one, other = desk.signed_in("piers"), desk.signed_in("piers")
    one.headers = other.headers
    assert one.patch("/api/session", {"language": "de"}).status_code == 403


@pytest.mark.parametrize("origin", ["https://elsewhere.example", "null", "http://localhost.elsewhere.example"])
def test_another_sites_page_can_change_nothing_and_sign_nobody_in(desk: Desk, origin: str) -> None:
    clerk = desk.signed_in("imogen")
    assert clerk.patch("/api/session", {"language": "de"}, Origin=origin).status_code == 403
    who = {"name": "imogen", "password": desk.passwords["imogen"]}
    assert desk.stranger().post("/api/session", who, Origin=origin).status_code == 403
    assert clerk.patch("/api/session", {"language": "de"}, Origin="http://localhost").status_code == 200


def test_the_cookie_is_out_of_reach_of_scripts_and_of_other_sites(desk: Desk) -> None:
    who = {"name": "imogen", "password": desk.passwords["imogen"]}
    cookie = desk.stranger().post("/api/session", who).headers["Set-Cookie"]
    assert cookie.startswith("desk=")
    assert "; HttpOnly; SameSite=Strict" in cookie
    assert "Secure" not in cookie


def test_beyond_this_machine_the_cookie_travels_over_tls_alone(desk: Desk) -> None:
    config: Config = replace(desk.config, url="https://desk.example")
    reader = Reader(make_app(config, desk.store).test_client())
    cookie = reader.post("/api/session", {"name": "imogen", "password": "blue-ledger"}).headers["Set-Cookie"]
    assert cookie.startswith("__Host-desk=")
    assert cookie.endswith("; Secure")
