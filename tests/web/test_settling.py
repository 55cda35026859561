"""The customer's answer over HTTP: what is sent, what is refused, and how to mend it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from app.domain.errors import DeliveryContradicts
from app.web.problems import answer_refusal
from app.wording import LANGUAGES, catalogue
from rules.money.tax import REFUSALS
from tests.web.conftest import START, Desk, Work
from tests.web.reader import Reader, fresh_key

YES = {"said_by": "Agnes Thornbury", "note": "By letter."}


def answer(reader: Reader, work: Work, act: str, body: Any, version: int = 3) -> Any:
    path = f"/api/quotations/{work.issued}/revisions/A/{act}"
    return reader.post(path, body, If_Match=f'"{version}"', **fresh_key())


def test_a_yes_is_shown_with_who_said_it_and_who_recorded_it(busy_desk: Desk, worked: Work) -> None:
    clerk = busy_desk.signed_in("imogen")
    accepted = answer(clerk, worked, "accept", YES)
    assert accepted.status_code == 200, accepted.text
    assert accepted.headers["ETag"] == '"4"'
    revision = accepted.get_json()
    assert revision["state"] == "accepted"
    assert revision["outcome"] == {
        "state": "accepted",
        "recorded_at": START.isoformat(),
        "recorded_by": "imogen",
        "said_at": START.isoformat(),
        "said_by": "Agnes Thornbury",
        "reason": None,
        "note": "By letter.",
    }
    history = clerk.get(f"/api/quotations/{worked.issued}").get_json()["history"]
    assert history[-1]["what"] == "Revision A accepted by Agnes Thornbury."


@pytest.mark.parametrize(
    ("language", "sentence"),
    [("en", "Revision A declined: the price."), ("de", "Revision A abgelehnt: der Preis.")],
)
def test_a_no_is_told_with_its_why(busy_desk: Desk, worked: Work, language: str, sentence: str) -> None:
    clerk = busy_desk.signed_in("imogen")
    clerk.patch("/api/session", {"language": language})
    assert answer(clerk, worked, "decline", {"reason": "price"}).get_json()["outcome"]["reason"] == "price"
    history = clerk.get(f"/api/quotations/{worked.issued}").get_json()["history"]
    assert (history[-1]["kind"], history[-1]["what"]) == ("revision-declined", sentence)


def test_the_same_yes_sent_again_gets_the_same_answer(busy_desk: Desk, worked: Work) -> None:
    clerk, key = busy_desk.signed_in("imogen"), fresh_key()
    path = f"/api/quotations/{worked.issued}/revisions/A/accept"
    first, again = (clerk.post(path, YES, If_Match='"3"', **key) for _ in range(2))
    assert (first.status_code, again.status_code) == (200, 200)
    assert first.get_json() == again.get_json()


@pytest.mark.parametrize(
    ("language", "day", "repair"),
    [("en", "25 December 2026", "today’s prices"), ("de", "25. Dezember 2026", "heutigen Preisen")],
)
def test_a_yes_that_came_too_late_is_told_to_copy_at_today_s_prices(
    busy_desk: Desk, worked: Work, language: str, day: str, repair: str
) -> None:
    busy_desk.clock.at = START + timedelta(days=31)
    clerk = busy_desk.signed_in("imogen")
    clerk.patch("/api/session", {"language": language})
    refused = answer(clerk, worked, "accept", YES)
    problem = refused.get_json()
    assert (refused.status_code, problem["type"]) == (409, "/problems/lapsed")
    assert day in problem["detail"]
    assert repair in problem["repair"]


def test_an_answer_that_stands_is_named(busy_desk: Desk, worked: Work) -> None:
    clerk = busy_desk.signed_in("imogen")
    answer(clerk, worked, "accept", YES)
    refused = answer(clerk, worked, "decline", {"reason": "price"}, 4)
    problem = refused.get_json()
    assert (refused.status_code, problem["type"]) == (409, "/problems/answer-stands")
    assert "was accepted before" in problem["detail"]


@pytest.mark.parametrize(
    ("act", "body", "errors"),
    [
        ("accept", {}, {"said_by": ["This is needed."]}),
        ("accept", {"said_by": "A", "said_at": "2 December"}, {"said_at": ["Write a moment with its zone, as in 2026-11-25T09:00:00Z."]}),  # noqa: E501
        ("accept", {"said_by": "A", "said_at": "2026-11-25T08:00:00"}, {"said_at": ["Write a moment with its zone, as in 2026-11-25T09:00:00Z."]}),  # noqa: E501
        ("accept", {"said_by": "A", "said_at": "2026-11-25T09:01:00Z"}, {"said_at": ["This has not come yet: write now or an earlier moment."]}),  # noqa: E501
        ("decline", {}, {"reason": ["This is needed."]}),
        ("decline", {"reason": "weather"}, {"reason": ["Write one of: price, date, detail, identity, other."]}),
    ],
)  # fmt: skip
def test_what_is_at_fault_with_an_answer_is_told(
    busy_desk: Desk, worked: Work, act: str, body: Any, errors: dict[str, list[str]]
) -> None:
    refused = answer(busy_desk.signed_in("imogen"), worked, act, body)
    assert (refused.status_code, refused.get_json()["errors"]) == (422, errors)


def test_papers_say_which_is_stored(busy_desk: Desk, worked: Work) -> None:
    """The owner's customer reads English and has it sent to Germany: English on A4 was stored at issue."""
    clerk = busy_desk.signed_in("imogen")

    def stored() -> list[tuple[str, str]]:
        papers = clerk.get(f"/api/quotations/{worked.issued}/revisions/A").get_json()["papers"]
        assert len(papers) == 4
        return [(paper["language"], paper["size"]) for paper in papers if paper["stored"]]

    assert stored() == [("en", "a4")]
    path = f"/api/quotations/{worked.issued}/revisions/A/paper?language=de&size=letter"
    assert clerk.get(path).data == clerk.get(path).data
    assert stored() == [("en", "a4"), ("de", "letter")]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("why", [*REFUSALS, "nothing-goes-there"])
def test_every_reason_why_no_tax_can_be_told_has_sentences_of_its_own(why: str, language: str) -> None:
    general = catalogue(language)["problem.delivery-contradicts.detail"]
    detail = catalogue(language)[f"problem.delivery-contradicts.{why}.detail"]
    assert detail != general
    assert catalogue(language)[f"problem.delivery-contradicts.{why}.repair"]


@pytest.mark.parametrize(
    ("language", "detail", "repair"),
    [
        ("en", "(van home) does not go to France.", "(shipped to a port)"),
        ("de", "in dieses Land: Frankreich.", "(shipped to a port)"),
    ],
)
def test_a_delivery_that_does_not_go_there_is_told_with_those_that_do(
    desk: Desk, language: str, detail: str, repair: str
) -> None:
    book = desk.signed_in("imogen").get("/api/books/current").get_json()
    labels = {c["id"]: c["label"][language] for o in book["options"] if o["id"] == "delivery" for c in o["choices"]}
    refusal = DeliveryContradicts(line=1, why="not-to-that-country", fitting=("port",), choice="van", country="FR")
    with desk.app.test_request_context(headers={"Accept-Language": language}):
        problem = answer_refusal(refusal).get_json(force=True)
    assert detail.replace("van home", labels["van"]) in problem["detail"]
    assert repair.replace("shipped to a port", labels["port"]) in problem["repair"]
    assert (problem["type"], problem["fitting"]) == ("/problems/delivery-contradicts", ["port"])


def test_where_nothing_goes_nothing_is_offered(desk: Desk) -> None:
    refusal = DeliveryContradicts(line=1, why="not-to-that-country", fitting=(), choice="van", country="FR")
    with desk.app.test_request_context(headers={"Accept-Language": "en"}):
        problem = answer_refusal(refusal).get_json(force=True)
    assert "no other in the book does" in problem["detail"]
    assert "–" not in problem["repair"]
