"""Bad input of any kind gets a clear answer and loses nothing."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.web.conftest import Desk
from tests.web.reader import ENQUIRY, Reader, fresh_key

JSON = {"Content-Type": "application/json"}


def raw(reader: Reader, path: str, body: bytes, method: str = "POST", **headers: str) -> Any:
    return reader.http.open(path, method=method, data=body, headers={**reader.headers, **JSON, **headers})


def kind(answer: Any) -> tuple[int, str]:
    assert answer.headers["Content-Type"] == "application/problem+json"
    problem = answer.get_json(force=True)
    assert problem["status"] == answer.status_code
    assert problem["detail"]
    assert problem["repair"]
    return answer.status_code, problem["type"].removeprefix("/problems/")


@pytest.mark.parametrize(
    "body",
    [
        b"{",  # cut off
        b"\xff\xfe",  # not UTF-8
        b"[" * 100_000,  # nested beyond any stack
        b'{"a":' * 40 + b"1" + b"}" * 40,  # nested beyond any use, yet well-formed
        b'{"text": NaN}',
        b'{"text": 1e400}',
        b'{"text": ' + b"9" * 5000 + b"}",
        b'{"text": "\\ud800"}',  # half a character
        b'{"text": "a\\u0000b"}',
        b'{"text": "a\\\\\\u0000b"}',  # a backslash, then a NUL
        b'{"a\\u0000b": 1}',
        b'{"text": [[9007199254740993]]}',  # no other program reads it as the same number
        b'{"\\ud800": 1}',
    ],
)
def test_json_that_cannot_be_meant_is_refused(clerk: Reader, body: bytes) -> None:
    assert kind(raw(clerk, "/api/donor-numbers", body)) == (400, "broken-json")


def test_a_backslash_before_a_u_is_what_it_looks_like(clerk: Reader) -> None:
    answer = raw(clerk, "/api/donor-numbers", b'{"text": "a\\\\u0000b"}')
    assert (answer.status_code, answer.get_json()["text"]) == (200, "a\\u0000b")


def test_a_body_of_ten_megabytes_is_refused_unread(clerk: Reader) -> None:
    assert kind(raw(clerk, "/api/donor-numbers", b" " * 10_000_000)) == (413, "too-large")


def test_a_body_that_is_no_json_is_named(clerk: Reader) -> None:
    headers = {**clerk.headers, "Content-Type": "text/plain"}
    assert kind(clerk.http.post("/api/donor-numbers", data=b"x", headers=headers)) == (415, "not-json")


def test_an_unknown_address_and_a_wrong_method(clerk: Reader) -> None:
    assert kind(clerk.get("/api/nothing")) == (404, "not-found")
    assert kind(clerk.get("/nothing")) == (404, "not-found")
    answer = clerk.post("/api/books/current", {})
    assert kind(answer) == (405, "method-not-allowed")
    assert answer.headers["Allow"] == "GET, HEAD, OPTIONS"


@pytest.mark.parametrize("body", [None, [], 7, "x", True])
def test_something_other_than_an_object_is_refused(clerk: Reader, body: Any) -> None:
    assert kind(raw(clerk, "/api/donor-numbers", json.dumps(body).encode())) == (422, "bad-input")


def test_all_fields_at_fault_are_named_at_once(clerk: Reader) -> None:
    body = {
        "customer": {"name": "", "trade": "yes", "country": "Atlantis", "language": "fr", "colour": "red"},
        "donor": {"number": 12.5, "established": 1},
        "wanted_by": "soon",
        "note": ["x"],
    }
    answer = clerk.post("/api/enquiries", body, **fresh_key())
    assert kind(answer) == (422, "bad-input")
    assert answer.get_json()["errors"] == {
        "customer.name": ["Write at least 1 characters."],
        "customer.trade": ["Write true or false."],
        "customer.country": ["Write a country in two letters, as in GB or DE."],
        "customer.language": ["Write one of: en, de."],
        "customer.colour": ["There is no such field here."],
        "donor.number": ["Write a whole number."],
        "donor.established": ["Write true or false."],
        "wanted_by": ["Write a date as in 2026-11-25."],
        "note": ["Write a text."],
    }


def test_what_was_pasted_around_a_name_is_left_out_and_nothing_but_that_is_no_name(clerk: Reader) -> None:
    """A paper printed the spaces, and the name stood out of its column."""
    kept = clerk.enquiry(name="  Ørsted\t van\r\n Meer\N{NO-BREAK SPACE} ", telephone=" 01632 960117\n")["customer"]
    assert (kept["name"], kept["telephone"]) == ("Ørsted van Meer", "01632 960117")
    body = {"customer": {"name": " \t\n", "country": "GB", "language": "en"}}
    answer = clerk.post("/api/enquiries", body, **fresh_key())
    assert answer.get_json()["errors"] == {"customer.name": ["Write at least 1 characters."]}


def test_a_specification_that_names_unknown_things_is_told_all_of_them(clerk: Reader) -> None:
    specification = {"body": {"choice": "saloon"}, "wings": {"choice": "two"}}
    answer = clerk.post("/api/answers", {"specification": specification, "price_list": "ZAR"})
    assert kind(answer) == (422, "unknown-names")
    assert answer.get_json()["errors"] == {
        "specification.body": ["The option body has no choice saloon."],
        "specification.wings": ["The rule book has no option wings."],
        "price_list": ["There is no ZAR list; the lists are GBP, EUR, USD."],
    }


@pytest.mark.parametrize("quantity", [0, -1, 1001, 10**15, 1.5, "3", True, None])
def test_an_absurd_number_of_shells_is_refused(clerk: Reader, quantity: Any) -> None:
    answer = clerk.post("/api/answers", {"specification": {}, "quantity": quantity})
    assert kind(answer) == (422, "bad-input")
    assert list(answer.get_json()["errors"]) == ["quantity"]


def test_a_whole_number_may_be_written_with_a_point(clerk: Reader) -> None:
    assert raw(clerk, "/api/answers", b'{"specification": {}, "quantity": 3.0}').status_code == 200


@pytest.mark.parametrize("path", ["enquiries/99999999999999999999", "enquiries/-1", "books/0", "books/999999999"])
def test_a_number_that_nothing_has_is_nothing_here(clerk: Reader, path: str) -> None:
    assert kind(clerk.get(f"/api/{path}")) == (404, "not-found")


@pytest.mark.parametrize(
    ("query", "field"),
    [("after=x", "after"), (f"after={'x' * 201}", "after"), ("state=lost", "state")],
)
def test_an_odd_query_is_refused(clerk: Reader, query: str, field: str) -> None:
    answer = clerk.get(f"/api/quotations?{query}")
    assert kind(answer) == (422, "bad-input")
    assert list(answer.get_json()["errors"]) == [field]


def test_a_search_text_is_only_a_text(clerk: Reader) -> None:
    clerk.enquiry(name="100 % Müller_'\"")
    for text in ("%25", "_", "'", '"', "*", "(", "-", "Müller"):
        assert clerk.get(f"/api/enquiries?q={text}").status_code == 200
    assert len(clerk.get("/api/enquiries?q=100 %25").get_json()["enquiries"]) == 1


def test_a_fault_of_ours_shows_no_traceback_and_a_number_to_name(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    from app.services.quotations import enquiring

    def broken(*_: Any, **__: Any) -> None:
        raise RuntimeError(ENQUIRY["customer"]["name"])

    monkeypatch.setattr(enquiring, "create_enquiry", broken)
    answer = desk.signed_in("imogen").post("/api/enquiries", ENQUIRY, **fresh_key())
    assert kind(answer) == (500, "internal")
    assert "Traceback" not in answer.text
    assert "RuntimeError" not in answer.text
    incident = answer.get_json()["repair"].rstrip(".").split()[-1]
    assert f"incident {incident}: RuntimeError" in caplog.text
    assert "Fenn" not in caplog.text


def test_the_log_of_a_refusal_names_nobody(clerk: Reader, caplog: pytest.LogCaptureFixture) -> None:
    clerk.post("/api/enquiries", {"customer": {"name": "Aldous Fenn", "email": "x" * 999}}, **fresh_key())
    assert caplog.text == ""
