"""A dealer's own program, let in by a token: as its dealer, within its scopes, and no further. Every route is tried.

The headers are those of RFC 6750 (Bearer Token Usage), sections 2.1 and 3.
"""

from __future__ import annotations

import pytest

from app.domain.asking.people import Action, Sort
from app.domain.asking.token import GRANTS
from app.services.people import letting_in
from tests.web.conftest import OWNER, Desk, Work
from tests.web.reader import Reader, fresh_key
from tests.web.test_hidden_prices import amounts
from tests.web.test_permissions import Tries, declared


def made(reader: Reader, *scopes: str, **more: str) -> dict[str, str]:
    answer = reader.post("/api/tokens", {"label": "Our shop", "scopes": scopes, **more}, **fresh_key())
    assert answer.status_code == 201, answer.text
    return dict(answer.get_json())


def program(desk: Desk, secret: str) -> Reader:
    """Comes with the token and without any cookie."""
    reader = desk.stranger()
    reader.headers["Authorization"] = f"Bearer {secret}"
    return reader


def test_a_token_reaches_what_its_scopes_say_and_nothing_else(busy_desk: Desk, worked: Work) -> None:
    tries = Tries(busy_desk, worked)
    own = program(busy_desk, made(tries.owner, "check", "quotations", "orders")["secret"])
    granted = {deed for deeds in GRANTS.values() for deed in deeds}
    for method, rule, does in declared(busy_desk):
        if does == "anybody" or (method, rule) == ("DELETE", "/api/session"):
            continue
        paper = rule.endswith(("/paper", "/acceptance-form"))  # which need the prices, too
        wanted = (200, 409) if does in granted and not paper else (403,)
        assert tries.send(own, method, rule) in wanted, f"{method} {rule}"


@pytest.mark.parametrize(
    ("scope", "path"), [("check", "/api/books/current"), ("quotations", "/api/quotations"), ("orders", "/api/orders")]
)
def test_one_scope_is_not_another(desk: Desk, scope: str, path: str) -> None:
    own = program(desk, made(desk.signed_in("nell"), scope)["secret"])
    reached = {at: own.get(at).status_code for at in ("/api/books/current", "/api/quotations", "/api/orders")}
    assert {at for at, status in reached.items() if status == 200} == {path}
    assert set(reached.values()) == {200, 403}


def test_no_scope_lets_a_program_write() -> None:
    granted = {deed for deeds in GRANTS.values() for deed in deeds}
    assert {action for action, _ in granted} == {Action.READ, Action.ASK}
    assert not {Sort.CUSTOMER, Sort.PERSONAL_DATA, Sort.API_TOKEN} & {sort for _, sort in granted}


def test_without_the_prices_scope_no_amount_comes_through_whatever_the_person_sees(
    busy_desk: Desk, worked: Work
) -> None:
    owner = busy_desk.signed_in(OWNER, prices=True)
    blind, seeing = (
        program(busy_desk, made(owner, "quotations", "check", *more)["secret"]) for more in ((), ("prices",))
    )
    for reader, sees in ((blind, False), (seeing, True)):
        found = reader.get(f"/api/quotations/{worked.issued}").get_json()
        asked = {"specification": owner.specification(), "price_list": "EUR"}
        answered = reader.post("/api/answers", asked).get_json()
        assert (list(amounts(found)) != [], list(amounts(answered)) != []) == (sees, sees)
    paper = blind.get(f"/api/quotations/{worked.issued}/revisions/A/paper")
    assert (paper.status_code, paper.get_json()["type"]) == (403, "/problems/out-of-scope")
    assert "prices" in paper.get_json()["detail"]
    assert seeing.get(f"/api/quotations/{worked.issued}/revisions/A/paper").data.startswith(b"%PDF")


def test_a_token_gives_no_more_than_its_own_dealers(busy_desk: Desk, worked: Work) -> None:
    wade = program(busy_desk, made(busy_desk.signed_in("wade"), "quotations", "orders", "prices")["secret"])
    assert wade.get("/api/quotations").get_json()["quotations"] == []
    assert wade.get(f"/api/quotations/{worked.issued}").data == wade.get("/api/quotations/Q-2026-99999").data
    assert wade.get("/api/open-orders").get_json()["orders"] == []


def test_the_secret_is_shown_once_and_only_its_hash_is_kept(busy_desk: Desk) -> None:
    owner, key = busy_desk.signed_in(OWNER), fresh_key()
    body = {"label": "Our shop", "scopes": ["check"]}
    first, again = (owner.post("/api/tokens", body, **key).get_json() for _ in range(2))
    assert (first["id"], again["secret"]) == (again["id"], None)
    assert first["secret"].startswith(letting_in.PREFIX)
    assert first["secret"] not in owner.get("/api/tokens").text
    busy_desk.store.close()
    held = b"".join(file.read_bytes() for file in busy_desk.config.data.iterdir() if file.is_file())
    assert b"Our shop" in held
    assert first["secret"].encode() not in held


def test_a_token_that_was_revoked_has_run_out_or_was_never_made_lets_nobody_in(desk: Desk) -> None:
    owner = desk.signed_in("nell")
    revoked, short = made(owner, "check"), made(owner, "check", expires_on="2026-11-25")
    assert program(desk, short["secret"]).get("/api/books/current").status_code == 200
    listed = desk.signed_in("piers").send("DELETE", f"/api/tokens/{revoked['id']}").get_json()
    assert (listed["state"], listed["revoked_by_name"]) == ("revoked", "Piers Adeyemi")
    desk.clock.pass_seconds(15 * 3600 - 1)  # to the last second of the day in London
    assert program(desk, short["secret"]).get("/api/books/current").status_code == 200
    desk.clock.pass_seconds(1)
    for secret, title in (
        (revoked["secret"], "This token was revoked"),
        (short["secret"], "This token has run out"),
        ("bodywright_nobody", "This token is not known"),
    ):
        answer = program(desk, secret).get("/api/books/current")
        assert (answer.status_code, answer.get_json()["title"]) == (401, title)
        assert answer.headers["WWW-Authenticate"] == 'Bearer error="invalid_token"'
        assert answer.get_json()["repair"]


def test_a_cookie_beside_a_token_is_not_looked_at_and_a_cookie_alone_still_needs_its_own_proof(desk: Desk) -> None:
    owner = desk.signed_in("nell")
    secret = made(owner, "check")["secret"]
    body = {"text": "T3-12044"}
    assert owner.post("/api/donor-numbers", body, Authorization="Bearer bodywright_wrong").status_code == 401
    assert owner.get("/api/quotations", Authorization=f"Bearer {secret}").status_code == 403
    without = program(desk, secret)
    assert without.post("/api/donor-numbers", body).status_code == 200  # no forgery token
    del owner.headers["X-Forgery-Token"]
    assert owner.post("/api/donor-numbers", body).get_json()["type"] == "/problems/forgery-suspected"
    basic = owner.post("/api/donor-numbers", body, Authorization="Basic bmVsbDpoZWxsbw==")
    assert basic.get_json()["type"] == "/problems/forgery-suspected"


def test_the_list_says_when_a_token_was_last_used(desk: Desk) -> None:
    owner = desk.signed_in("nell")
    secret = made(owner, "check")["secret"]
    assert [one["used_at"] for one in owner.get("/api/tokens").get_json()["tokens"]] == [None]
    desk.clock.pass_seconds(3600)
    assert program(desk, secret).get("/api/books/current").status_code == 200
    (used,) = owner.get("/api/tokens").get_json()["tokens"]
    assert used["used_at"] == "2026-11-25T10:00:00+00:00"


def test_the_manager_sees_and_revokes_every_dealers_tokens_a_dealer_his_own_alone(desk: Desk) -> None:
    nells, wades = (made(desk.signed_in(name), "check") for name in ("nell", "wade"))
    seen = {name: [one["id"] for one in desk.signed_in(name).get("/api/tokens").get_json()["tokens"]]
            for name in ("piers", "nell")}  # fmt: skip
    assert seen == {"piers": [wades["id"], nells["id"]], "nell": [nells["id"]]}
    assert desk.signed_in("nell").send("DELETE", f"/api/tokens/{wades['id']}").status_code == 404
    assert desk.signed_in("imogen").get("/api/tokens").status_code == 403


def test_what_is_asked_too_often_is_told_to_wait(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(letting_in, "MOST_A_MINUTE", 3)
    own = program(desk, made(desk.signed_in("nell"), "check")["secret"])
    statuses = [own.post("/api/donor-numbers", {"text": "T3-12044"}).status_code for _ in range(4)]
    assert statuses == [200, 200, 200, 429]
    told = own.post("/api/donor-numbers", {"text": "T3-12044"})
    assert (told.get_json()["type"], told.headers["Retry-After"]) == ("/problems/too-many-requests", "61")
    desk.clock.pass_seconds(61)
    assert own.post("/api/donor-numbers", {"text": "T3-12044"}).status_code == 200


def test_a_token_for_nothing_for_a_day_gone_by_or_without_a_name_is_not_made(desk: Desk) -> None:
    body = {"label": " ", "scopes": ["prices"], "expires_on": "2026-11-24"}
    told = desk.signed_in("nell").post("/api/tokens", body, **fresh_key())
    assert told.status_code == 422
    assert set(told.get_json()["errors"]) == {"label", "scopes", "expires_on"}
    strange = desk.signed_in("nell").post("/api/tokens", {"label": "x", "scopes": ["everything"]}, **fresh_key())
    assert list(strange.get_json()["errors"]) == ["scopes.0"]


def test_sentences_come_in_the_language_that_the_program_asks_for(desk: Desk) -> None:
    own = program(desk, made(desk.signed_in("nell"), "check")["secret"])
    assert (
        own.get("/api/quotations", Accept_Language="de").get_json()["title"] == "Dafür ist der Zugangsschlüssel nicht"
    )
