"""A draft's paper can be had whatever is typed in the draft so far."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.reader import Reader

PLACE = {"country": "GB"}


@pytest.mark.parametrize(
    "typed",
    [
        {},  # no line yet
        {"lines": [{"specification": {}}]},  # nothing answered
        {"lines": [{"specification": {"body": {"choice": "coupe"}}, "quantity": 3}]},  # no delivery chosen
        {"note": "x" * 9_000},  # longer than a page
        {"note": "\n" * 5_000},
        {"extras": [{"extra": "photo-book", "quantity": 2}]},  # extras alone
    ],
    ids=["empty", "unanswered", "no-delivery", "long-note", "blank-lines", "extras-alone"],
)
def test_a_draft_can_be_printed_however_unfinished(clerk: Reader, typed: dict[str, Any]) -> None:
    draft = f"/api/quotations/{clerk.quotation()}/revisions/A"
    line = {"specification": clerk.specification(), "quantity": 1}
    whole = {"price_list": "GBP", "delivery_place": PLACE, "lines": [line] if "note" in typed else []} | typed
    assert clerk.put(draft, whole, If_Match='"2"').status_code == 200
    paper = clerk.get(f"{draft}/paper")
    assert (paper.status_code, paper.data[:4]) == (200, b"%PDF")
