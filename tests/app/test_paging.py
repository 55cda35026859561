"""The key by which a further page is asked for: it leads on from where a page ended, of that list and no other."""

from __future__ import annotations

import base64
import json

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from app.domain.errors import BadInput
from app.domain.paging import LONGEST_KEY, Page, key_of, page, position_in

LIST = ("/api/quotations", "", "q=fenn", "state=issued")

WHOLE = st.integers(-(2**63), 2**63 - 1)


def refused(key: str, of: tuple[str, ...] = LIST, kinds: tuple[type, ...] = (int,)) -> str:
    """By which code."""
    with pytest.raises(BadInput) as refusal:
        position_in(key, of, kinds)
    (fault,) = refusal.value.faults
    assert fault.path == "after"
    return fault.code


def written(told: object) -> str:
    """Whatever it is, in the form of a key."""
    text = json.dumps(told, separators=(",", ":"))
    return base64.urlsafe_b64encode(text.encode()).decode().rstrip("=")


@given(WHOLE)
def test_a_key_leads_back_to_where_the_page_ended(turn: int) -> None:
    assert position_in(key_of(LIST, (turn,)), LIST, (int,)) == (turn,)


@given(st.text(max_size=32), WHOLE)
def test_a_key_of_a_moment_and_a_number_does_so_too(moment: str, turn: int) -> None:
    assert position_in(key_of(LIST, (moment, turn)), LIST, (str, int)) == (moment, turn)


def test_a_key_fits_into_an_address_as_it_is_and_is_short() -> None:
    key = key_of(LIST, ("2026-11-25T09:00:00.000000+00:00", 2**63 - 1))
    assert key.isascii()
    assert key.replace("-", "").replace("_", "").isalnum()
    assert len(key) <= LONGEST_KEY


@pytest.mark.parametrize(
    "other",
    [
        ("/api/orders", *LIST[1:]),
        ("/api/quotations", "lindenhof", *LIST[2:]),
        ("/api/quotations", "", "q=fen", "state=issued"),
        ("/api/quotations", "", "q=fenn", "state=lapsed"),
        ("/api/quotations", "q=fenn", "state=issued"),
    ],
)
def test_the_key_of_another_list_or_search_is_refused(other: tuple[str, ...]) -> None:
    assert refused(key_of(other, (7,))) == "page-key-of-another-list"


@pytest.mark.parametrize("position", [(), (7, 7), ("7",), (7, "7")])
def test_a_key_that_tells_another_order_is_refused(position: tuple[int | str, ...]) -> None:
    key = key_of(LIST, position)
    assert refused(key) == ("not-a-page-key" if position == () else "page-key-of-another-list")


@given(st.text(max_size=60))
@example("W")
@example("WzFd")
@example("é")
@example("=" * 8)
@example(written([1, "x", True]))
@example(written([1, "x", 2**63]))
@example(written([1, "x", 1.5]))
@example(written([1, "x", None]))
@example(written([1, "x", [7]]))
@example(written([2, "x", 7]))
@example(written([True, "x", 7]))
@example(written({"1": "x"}))
@example(written([[[[[[]]]]]]))
def test_whatever_is_no_key_is_refused_and_said(text: str) -> None:
    assert refused(text) == "not-a-page-key"


@pytest.mark.parametrize("spoil", [lambda key: key + "=", lambda key: f" {key}", lambda key: key + "\n", str.swapcase])
def test_a_key_written_in_another_way_is_no_key(spoil: object) -> None:
    key = key_of(LIST, (1_795_491_600_000_000_000,))
    assert refused(spoil(key)) == "not-a-page-key"  # type: ignore[operator]


def test_a_key_with_blanks_in_it_came_from_elsewhere() -> None:
    told = json.loads(base64.urlsafe_b64decode(key_of(LIST, (7,)) + "=="))
    loose = base64.urlsafe_b64encode(json.dumps(told).encode()).decode().rstrip("=")
    assert refused(loose) == "not-a-page-key"


@pytest.mark.parametrize(
    ("rows", "shown", "ended"), [([9, 8, 7], (9, 8), (8,)), ([9, 8], (9, 8), None), ([9], (9,), None), ([], (), None)]
)
def test_one_row_more_than_a_page_says_that_something_follows(
    rows: list[int], shown: tuple[int, ...], ended: tuple[int] | None
) -> None:
    assert page(rows, 2, lambda row: (row,)) == Page(shown, ended)


def test_what_is_made_of_a_page_ends_where_the_page_did() -> None:
    assert page([3, 2, 1], 2, lambda row: (row,)).of(str) == Page(("3", "2"), (2,))
