"""Reasons, whys and alternatives over HTTP: names, languages, and that no sentence names a sum that is hidden."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.web.conftest import OWNER, Desk
from tests.web.reader import Reader

IMPACT = {"option": "bumpers", "choice": "impact"}


def asked(reader: Reader, **more: Any) -> dict[str, Any]:
    """The usual home S3 roadster by our van."""
    place = {"price_list": "GBP", "delivery_place": {"country": "GB"}, "customer_country": "GB"}
    return {"specification": reader.specification(), **place, **more}


def test_a_wish_that_the_book_has_not_is_named_with_all_other_names(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    body = asked(clerk, wish={"option": "bumpers", "choice": "rubber"}, price_list="ZAR")
    for path in ("/api/reasons", "/api/alternatives"):
        answer = clerk.post(path, body)
        assert (answer.status_code, answer.get_json()["type"]) == (422, "/problems/unknown-names")
        assert set(answer.get_json()["errors"]) == {"price_list", "wish.bumpers"}


def test_a_why_needs_an_option_of_the_book(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    assert set(clerk.post("/api/whys", asked(clerk)).get_json()["errors"]) == {"option"}
    answer = clerk.post("/api/whys", asked(clerk, option="spoiler"))
    assert answer.get_json()["errors"] == {"option": ["The rule book has no option spoiler."]}


def test_the_readers_own_language_is_spoken_unless_another_is_asked_for(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    own = clerk.post("/api/reasons", asked(clerk, wish=IMPACT)).get_json()["sentence"]
    german = clerk.post("/api/reasons", asked(clerk, wish=IMPACT, language="de")).get_json()["sentence"]
    assert own == "That can’t be built. There are 3 reasons."
    assert german == "Das lässt sich nicht bauen. Dafür gibt es 3 Gründe."
    assert clerk.post("/api/reasons", asked(clerk, language="fr")).status_code == 422


def test_what_can_be_built_has_neither_reason_nor_alternative(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    stands = clerk.post("/api/reasons", asked(clerk)).get_json()
    assert (stands["stands"], stands["reasons"], stands["sentence"]) == (True, [], "Nothing stands against that.")
    offered = clerk.post("/api/alternatives", asked(clerk)).get_json()
    assert (offered["alternatives"], offered["keep"]) == ([], [])
    assert offered["sentence"] == "That can be built as it is."


def test_where_no_tax_case_is_decided_the_difference_is_told_before_tax(desk: Desk) -> None:
    """Collected, and nobody said where the customer is from."""
    clerk = desk.signed_in("imogen")
    body = {"specification": clerk.specification(delivery="collected"), "wish": IMPACT}
    first = clerk.post("/api/alternatives", body).get_json()["alternatives"][0]
    assert (first["difference"]["net"], first["difference"]["with_tax"]) == (385_00, None)
    assert first["difference"]["sentence"] == "Before tax it comes to £12,475.00: £385.00 more."


def test_what_has_no_price_on_the_list_is_said_not_to_be_told(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    body = asked(clerk, wish=IMPACT, price_list="EUR")  # our van is not priced in euro
    first = clerk.post("/api/alternatives", body).get_json()["alternatives"][0]
    assert first["difference"] == {
        "net": None,
        "with_tax": None,
        "sentence": "What it costs can’t be told: not all of it is priced.",
    }


def test_sums_are_of_all_the_shells_asked_about(desk: Desk) -> None:
    """Impact is 385 on the list; with three shells 3 % goes off the base line alone, so thrice 385 before tax."""
    clerk = desk.signed_in("imogen")
    first = clerk.post("/api/alternatives", asked(clerk, wish=IMPACT, quantity=3)).get_json()["alternatives"][0]
    assert first["difference"]["net"] == 3 * 385_00
    assert first["difference"]["with_tax"] == 3 * 462_00


@pytest.mark.parametrize("name", [OWNER, "tomasz"])
def test_no_sentence_names_a_sum_while_prices_are_hidden(desk: Desk, name: str) -> None:
    reader = desk.signed_in(name)
    answer = reader.post("/api/alternatives", asked(reader, wish=IMPACT))
    assert answer.status_code == 200
    offered = answer.get_json()
    assert [each["price"] for each in offered["alternatives"]] == [None] * 3
    assert [each["difference"] for each in offered["alternatives"]] == [None] * 3
    assert not [sign for sign in "£€$" if sign in json.dumps(offered, ensure_ascii=False)]
    assert "costs" not in answer.text


def test_a_tool_that_is_lost_is_said_in_words(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    etag = manager.get("/api/tools").headers["ETag"]
    lost = {"state": "lost", "note": "Stolen."}
    assert manager.put("/api/tools/raised-bonnet-press", lost, If_Match=etag).status_code == 200
    body = {"specification": {}, "wish": {"option": "suspension", "choice": "four-link"}}
    (reason,) = manager.post("/api/reasons", body).get_json()["reasons"]
    assert reason["rules"] == [{"id": "D3a", "sort": "rule"}, {"id": "raised-bonnet-press", "sort": "tool"}]
    assert reason["sentence"] == (
        "Whatever else is chosen, a four-link shell can’t be built – D3a: the tall turrets need the raised bonnet, and "
        "the press for the raised bonnet is not available."
    )


def test_a_shell_that_waits_for_a_tool_says_for_which_and_until_when(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    etag = manager.get("/api/tools").headers["ETag"]
    down = {"state": "down", "until": "2026-12-16", "note": "Bracket jaw cracked."}
    assert manager.put("/api/tools/four-link-tool", down, If_Match=etag).status_code == 200
    answer = manager.post(
        "/api/answers", {"specification": manager.specification(suspension="four-link", bonnet="raised")}
    ).get_json()
    assert answer["tools_down"] == [{"tool": "four-link-tool", "until": "2026-12-16"}]
    assert "tools" in answer["ready"]["gates"]
