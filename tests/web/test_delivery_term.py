"""A delivery term as agreed: typed with the place, kept, printed, and told where a revision moved it."""

from __future__ import annotations

from tests.documents.reading import whole
from tests.web.reader import Reader, fresh_key

TERM = "FCA Dorn Quay, Incoterms 2020"


def written(clerk: Reader, number: str, letter: str, version: int, term: str) -> None:
    path = f"/api/quotations/{number}/revisions/{letter}"
    lines = [{"specification": clerk.specification(delivery="collected", packing="dolly"), "quantity": 1}]
    place = {"country": "GB", "region": "", "term": term}
    body = {"price_list": "GBP", "delivery_place": place, "lines": lines}
    answer = clerk.put(path, body, If_Match=f'"{version}"')
    assert answer.status_code == 200, answer.text


def paper(clerk: Reader, number: str, letter: str) -> str:
    answer = clerk.get(f"/api/quotations/{number}/revisions/{letter}/paper?language=en&size=a4")
    return " ".join(whole(answer.data).split())


def test_an_agreed_term_is_kept_and_printed_and_without_one_none_is_claimed(clerk: Reader) -> None:
    number = clerk.quotation()
    written(clerk, number, "A", 2, TERM)
    kept = clerk.get(f"/api/quotations/{number}/revisions/A").get_json()["delivery_place"]
    assert kept == {"country": "GB", "region": "", "term": TERM}
    assert clerk.issue(number, "A", 3).status_code == 200
    assert f"Delivery term: {TERM}." in paper(clerk, number, "A")
    other = clerk.quotation()
    clerk.issue(other)
    assert "No trade term such as an Incoterms rule is agreed" in paper(clerk, other, "A")


def test_a_term_that_moved_is_told_on_the_next_revision(clerk: Reader) -> None:
    number = clerk.quotation()
    clerk.issue(number)
    assert clerk.post(f"/api/quotations/{number}/revisions", **fresh_key()).status_code == 201
    written(clerk, number, "B", 1, TERM)
    moved = clerk.get(f"/api/quotations/{number}/revisions/B").get_json()["changes"]["place"]
    assert (moved["before"]["term"], moved["after"]["term"]) == ("", TERM)


def test_a_term_too_long_for_the_paper_is_refused_with_its_limit(clerk: Reader) -> None:
    number = clerk.quotation()
    body = {"price_list": "GBP", "delivery_place": {"country": "GB", "term": "x" * 81}, "lines": []}
    answer = clerk.put(f"/api/quotations/{number}/revisions/A", body, If_Match='"2"')
    assert answer.status_code == 422
    assert list(answer.get_json()["errors"]) == ["delivery_place.term"]
    assert "80" in str(answer.get_json()["errors"])
