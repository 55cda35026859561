"""Two tabs, two presses, two people: ETag and If-Match (RFC 9110 §13, RFC 6585), Idempotency-Key."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.web.conftest import Desk
from tests.web.reader import ENQUIRY, Reader, fresh_key

DRAFT = {"price_list": "GBP", "delivery_place": {"country": "GB"}}


def type_of(answer: object) -> str:
    return str(answer.get_json()["type"]).removeprefix("/problems/")  # type: ignore[attr-defined]


def test_an_edit_says_which_version_it_was_made_on(clerk: Reader) -> None:
    number = clerk.quotation()
    draft = f"/api/quotations/{number}/revisions/A"
    without = clerk.put(draft, DRAFT)
    assert (without.status_code, type_of(without)) == (428, "version-missing")
    assert clerk.put(draft, DRAFT, If_Match="*").status_code == 428


@pytest.mark.parametrize("tag", ['"1"', '"3"', 'W/"2"', '"x"', "nonsense", '"1", "2"', '"99999999999999999999"', '""'])
def test_any_other_version_is_refused_and_nothing_is_lost(clerk: Reader, tag: str) -> None:
    draft = f"/api/quotations/{clerk.quotation()}/revisions/A"
    answer = clerk.put(draft, {**DRAFT, "note": "mine"}, If_Match=tag)
    assert (answer.status_code, type_of(answer)) == (412, "changed-by-another")
    kept = clerk.get(draft)
    assert (kept.headers["ETag"], kept.get_json()["note"], len(kept.get_json()["lines"])) == ('"2"', "", 1)


def test_of_two_tabs_that_edit_one_draft_the_second_is_told(clerk: Reader) -> None:
    draft = f"/api/quotations/{clerk.quotation()}/revisions/A"
    etag = clerk.get(draft).headers["ETag"]
    assert clerk.put(draft, {**DRAFT, "note": "first"}, If_Match=etag).status_code == 200
    second = clerk.put(draft, {**DRAFT, "note": "second"}, If_Match=etag)
    assert (second.status_code, clerk.get(draft).get_json()["note"]) == (412, "first")


def test_what_creates_needs_a_key(clerk: Reader) -> None:
    for key in (None, "short", "x" * 201, "ümlaut-key", "tab\tin-it-somewhere"):
        answer = clerk.post("/api/enquiries", ENQUIRY, **({"Idempotency-Key": key} if key else {}))
        assert (answer.status_code, type_of(answer)) == (400, "key-missing"), key


def test_pressed_twice_it_is_made_once(clerk: Reader) -> None:
    key = fresh_key()
    first, second = (clerk.post("/api/enquiries", ENQUIRY, **key) for _ in range(2))
    assert first.status_code == second.status_code == 201
    assert first.get_json() == second.get_json()
    assert len(clerk.get("/api/enquiries").get_json()["enquiries"]) == 1


def test_a_key_is_not_used_for_something_else(clerk: Reader) -> None:
    key = fresh_key()
    clerk.post("/api/enquiries", ENQUIRY, **key)
    other = clerk.post("/api/enquiries", {**ENQUIRY, "note": "another"}, **key)
    assert (other.status_code, type_of(other)) == (422, "key-reused")


def test_keys_of_two_people_have_nothing_to_do_with_each_other(desk: Desk) -> None:
    key = fresh_key()
    one = desk.signed_in("greta").post("/api/enquiries", ENQUIRY, **key).get_json()["id"]
    assert desk.signed_in("wade").post("/api/enquiries", ENQUIRY, **key).get_json()["id"] != one


def test_issued_twice_with_one_key_is_issued_once(clerk: Reader) -> None:
    number = clerk.quotation()
    key, path = fresh_key(), f"/api/quotations/{number}/revisions/A/issue"
    first, second = (clerk.post(path, If_Match='"2"', **key) for _ in range(2))
    assert (first.status_code, second.status_code) == (200, 200)
    assert first.get_json() == second.get_json()
    again = clerk.issue(number)
    assert (again.status_code, type_of(again)) == (409, "frozen")


def test_eight_presses_at_once_make_one_enquiry(desk: Desk) -> None:
    key = fresh_key()
    readers = [desk.signed_in("imogen") for _ in range(8)]

    def press(reader: Reader) -> tuple[int, int]:
        answer = reader.post("/api/enquiries", ENQUIRY, **key)
        desk.store.close()
        return answer.status_code, answer.get_json().get("id")

    with ThreadPoolExecutor(8) as pool:
        answers = set(pool.map(press, readers))
    assert len(answers - {(409, None)}) == 1
    assert len(readers[0].get("/api/enquiries").get_json()["enquiries"]) == 1


def test_eight_people_at_once_get_eight_numbers(desk: Desk) -> None:
    readers = [
        desk.signed_in(name) for name in ("imogen", "piers", "maren", "nell", "greta", "wade", "themba", "imogen")
    ]

    def take_down(reader: Reader) -> str:
        answer = reader.post("/api/enquiries", ENQUIRY, **fresh_key())
        desk.store.close()
        return str(answer.get_json()["reference"])

    with ThreadPoolExecutor(8) as pool:
        references = sorted(pool.map(take_down, readers))
    assert references == [f"E-2026-0000{n}" for n in range(1, 9)]


def test_what_cannot_be_issued_says_how_to_mend_it(clerk: Reader) -> None:
    number = clerk.quotation(suspension="four-link", bumpers="impact", series="s4")
    answer = clerk.issue(number)
    assert (answer.status_code, type_of(answer)) == (422, "cannot-be-built")
    problem = answer.get_json()
    assert problem["line"] == 1
    assert ["N2"] in problem["causes"]
    assert "N2 (The rear rail for the impact bumper fouls the four-link brackets)" in problem["detail"]


def test_an_unpriced_delivery_is_named(clerk: Reader) -> None:
    answer = clerk.issue(clerk.quotation("EUR", "GB", delivery="van"))
    assert (answer.status_code, type_of(answer)) == (422, "not-priced")
    assert answer.get_json()["unpriced"] == ["delivery.van"]
    assert "Our van" in answer.get_json()["detail"]


def test_issuing_and_revising_go_on_from_letter_to_letter(clerk: Reader) -> None:
    number = clerk.quotation()
    issued = clerk.issue(number).get_json()
    assert (issued["state"], issued["totals"]["tax_cases"][0]["payable"]) == ("issued", 14_850_00)
    revisions = f"/api/quotations/{number}/revisions"
    following = clerk.post(revisions, **fresh_key())
    assert (following.status_code, following.get_json()["letter"]) == (201, "B")
    assert type_of(clerk.post(revisions, **fresh_key())) == "draft-stands"
    assert type_of(clerk.put(f"{revisions}/A", DRAFT, If_Match='"2"')) == "frozen"
    history = clerk.get(f"/api/quotations/{number}").get_json()["history"]
    assert [entry["what"] for entry in history] == [
        "Revision A drafted.",
        "Revision A changed.",
        "Revision A issued.",
        "Revision B drafted.",
    ]


def test_an_issued_paper_stays_byte_for_byte_what_it_was(clerk: Reader) -> None:
    number = clerk.quotation()
    clerk.issue(number)
    papers = clerk.get(f"/api/quotations/{number}/revisions/A").get_json()["papers"]
    assert {(paper["language"], paper["size"]) for paper in papers} == {
        ("en", "a4"), ("en", "letter"), ("de", "a4"), ("de", "letter"),
    }  # fmt: skip
    first = clerk.get(papers[0]["url"])
    assert first.headers["Content-Type"] == "application/pdf"
    named = {clerk.get(paper["url"]).headers["Content-Disposition"] for paper in papers}
    assert named == {
        f'inline; filename="{number}-A-{kind}.pdf"' for kind in ("en-a4", "en-letter", "de-a4", "de-letter")
    }
    assert first.data.startswith(b"%PDF")
    assert clerk.get(papers[0]["url"]).data == first.data


def test_the_difference_sheet_is_a_file_of_its_own_and_the_same_each_time(clerk: Reader) -> None:
    number = clerk.quotation()
    clerk.issue(number)
    address = f"/api/quotations/{number}/revisions/A/difference-sheet?language=de&size=letter"
    first = clerk.get(address)
    assert (first.status_code, first.headers["Content-Type"]) == (200, "application/pdf")
    named = f'inline; filename="{number}-A-difference-sheet-de-letter.pdf"'
    assert first.headers["Content-Disposition"] == named
    assert clerk.get(address).data == first.data
