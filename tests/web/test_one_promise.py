"""One live promise over HTTP: refused by accident, taken on purpose, told afterwards; and what changed is served."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.conftest import OWNER, Desk, Work
from tests.web.reader import Reader, fresh_key


@pytest.fixture
def accepted(busy_desk: Desk, worked: Work) -> Reader:
    """The clerk, with A accepted and B a draft that has a note."""
    clerk = busy_desk.signed_in("imogen")
    revision = f"/api/quotations/{worked.issued}/revisions"
    assert _post(clerk, f"{revision}/A/accept", {"said_by": "Agnes Thornbury"}, 3).status_code == 200
    made = clerk.post(f"/api/quotations/{worked.issued}/revisions", {}, **fresh_key()).get_json()
    body = {name: made[name] for name in ("price_list", "delivery_place")}
    lines = [{"specification": line["specification"], "quantity": 2} for line in made["lines"]]
    kept = clerk.put(f"{revision}/B", {**body, "lines": lines, "note": "Two of them."}, If_Match='"1"')
    assert kept.status_code == 200, kept.text
    return clerk


def test_a_draft_beside_a_yes_says_that_it_stands(accepted: Reader, worked: Work) -> None:
    draft = accepted.get(f"/api/quotations/{worked.issued}/revisions/B").get_json()
    assert (draft["earlier_yes"]["letter"], draft["earlier_yes"]["stands"]) == ("A", True)
    assert draft["changes"]["against"] == "A"
    (line,) = draft["changes"]["lines"]
    assert (line["quantity"], line["answers"]) == ({"before": 1, "after": 2}, [])
    assert draft["changes"]["note"] == {"before": "", "after": "Two of them."}


def test_issuing_it_needs_to_be_said(accepted: Reader, worked: Work) -> None:
    path = f"/api/quotations/{worked.issued}/revisions/B/issue"
    refused = _post(accepted, path, None, 2)
    assert (refused.status_code, refused.get_json()["type"]) == (409, "/problems/yes-stands")
    assert refused.get_json()["accepted"] == "A"
    assert "Agnes Thornbury" in refused.get_json()["detail"]
    assert _post(accepted, path, {"replaces_yes": False}, 2).status_code == 409
    assert _post(accepted, path, {"replaces_yes": "yes"}, 2).status_code == 422
    issued = _post(accepted, path, {"replaces_yes": True}, 2)
    assert issued.status_code == 200, issued.text
    assert (issued.get_json()["state"], issued.get_json()["earlier_yes"]["stands"]) == ("issued", False)


def test_afterwards_row_history_and_work_to_come_tell_of_the_yes(
    accepted: Reader, worked: Work, busy_desk: Desk
) -> None:
    _post(accepted, f"/api/quotations/{worked.issued}/revisions/B/issue", {"replaces_yes": True}, 2)
    rows = accepted.get(f"/api/quotations?q={worked.issued}").get_json()["quotations"]
    assert [(row["letter"], row["state"], row["draft"], row["earlier_yes"]["letter"]) for row in rows] == [
        ("B", "issued", None, "A")
    ]
    quotation = accepted.get(f"/api/quotations/{worked.issued}").get_json()
    assert quotation["revisions"][0]["state"] == "superseded"
    assert quotation["revisions"][0]["outcome"]["state"] == "accepted"
    assert quotation["history"][-1]["what"] == "Revision B issued in place of A, which the customer had accepted."
    work = busy_desk.signed_in("tomasz").get(f"/api/work-to-come/{worked.issued}").get_json()
    assert (work["letter"], work["state"], work["earlier_yes"]["letter"]) == ("B", "issued", "A")


def test_hidden_prices_hide_what_changed_in_money_and_nothing_else(
    accepted: Reader, worked: Work, busy_desk: Desk
) -> None:
    path = f"/api/quotations/{worked.issued}/revisions/B"
    shown = busy_desk.signed_in(OWNER, prices=True).get(path).get_json()["changes"]
    hidden = busy_desk.signed_in(OWNER).get(path).get_json()["changes"]
    assert shown["sums"]["after"]["cases"][0]["with_tax"] > shown["sums"]["before"]["cases"][0]["with_tax"]
    assert hidden["sums"] is None
    assert hidden["lines"][0]["net"] == {"before": None, "after": None}
    assert hidden["ready"] == shown["ready"]


def _post(reader: Reader, path: str, body: Any, version: int) -> Any:
    return reader.post(path, body, If_Match=f'"{version}"', **fresh_key())
