"""A quotation as the desk reads it: in the same words as its paper."""

from __future__ import annotations

from tests.web.reader import Reader


def test_what_paint_forces_is_told_as_forced_and_not_as_usual(clerk: Reader) -> None:
    number = clerk.quotation(finish="painted", scope="outside", colour="moss", primer="epoxy-and-filler")
    revision = f"/api/quotations/{number}/revisions/A"
    draft = clerk.get(revision).get_json()
    body = {name: draft[name] for name in ("price_list", "delivery_place")}
    answers = draft["lines"][0]["specification"]
    answers["primer"]["origin"] = "usual"  # as it stands after an alternative was taken that needs this primer
    clerk.put(revision, {**body, "lines": [{"specification": answers, "quantity": 1}]}, If_Match='"2"')
    assert clerk.issue(number, version=3).status_code == 200
    issued = clerk.get(revision).get_json()
    for told in (draft, issued):
        standing = told["lines"][0]["answer"]["standing"]
        assert (standing["finish"], standing["scuttle"]) == ("chosen", "usual")
    assert issued["lines"][0]["answer"]["standing"]["primer"] == "forced"
