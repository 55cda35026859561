"""Then and now over HTTP: what moved is told in words of the book, and no amount while prices are hidden."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from app.services.books import publishing
from demo.loading import BOOK
from tests.app.desk import MANAGER
from tests.web.conftest import Desk


def raise_the_roadster(desk: Desk) -> None:
    text = BOOK.read_text(encoding="utf-8").replace("11 850", "12 100")
    publishing.publish_book(desk.store, MANAGER, text, desk.clock.at)


def test_a_raised_list_is_told_line_by_line_on_what_is_out(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    number = clerk.quotation()
    assert clerk.issue(number).status_code == 200
    path = f"/api/quotations/{number}/revisions/A/then-and-now"
    before = clerk.get(path).get_json()
    assert (before["moved"], before["advice"]) == (False, [])
    raise_the_roadster(desk)
    told = clerk.get(path).get_json()
    assert (told["moved"], told["advice"], told["then"]["book"], told["now"]["book"]) == (True, ["dearer"], 1, 2)
    (row,) = [row for row in told["lines"][0]["prices"] if row["moved"]]
    assert (row["label"]["en"], row["before"]["net"], row["after"]["net"]) == ("Body: Roadster", 1185000, 1210000)
    cases = [told["sums"][side]["cases"][0]["with_tax"] for side in ("before", "after")]
    assert cases == [1485000, 1515000]


def test_no_amount_of_then_or_now_is_told_while_prices_are_hidden(desk: Desk) -> None:
    greta = desk.signed_in("greta", prices=True)
    number = greta.quotation("EUR", "DE", delivery="port", packing="frame")
    assert greta.issue(number).status_code == 200
    raise_the_roadster(desk)
    greta.patch("/api/session", {"prices_shown": False})
    told = greta.get(f"/api/quotations/{number}/revisions/A/then-and-now").get_json()
    assert (told["sums"], told["extras"], told["lines"][0]["prices"], told["lines"][0]["net"]) == (None,) * 4
    assert numbers(told["lines"]) <= {1, 26, 36}  # the line, and the days


def test_a_draft_s_author_says_that_he_has_seen_it(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    number = clerk.quotation()
    desk.clock.pass_seconds(timedelta(hours=1).total_seconds())
    raise_the_roadster(desk)
    at = f"/api/quotations/{number}/revisions/A"
    told = clerk.get(f"{at}/then-and-now").get_json()
    assert (told["advice"], told["answers_moved"]) == (["draft"], 0)
    numbers_now = {name: told["now"][name] for name in ("book", "tool_state")}
    seen = clerk.put(f"{at}/seen", numbers_now)
    assert (seen.status_code, seen.get_json()["moved"]) == (200, False)
    assert clerk.get(at).get_json()["version"] == 2


def numbers(value: Any) -> set[int]:
    """Every whole number in it."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        return {found for part in value for found in numbers(part)}
    return {value} if isinstance(value, int) and not isinstance(value, bool) else set()
