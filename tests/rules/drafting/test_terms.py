"""Conditions as terms that are put together from lists: which can be, and which have to be written out."""

from __future__ import annotations

import pytest

from rules.condition import NEVER
from rules.drafting.terms import How, Term, Terms, terms_of
from rules.reading.typed import condition_typed
from tests.rules.demo_book import FILE

TEXT = FILE.read_text("utf-8")
LEAF = Term("suspension", How.IS, ("leaf",))


def terms(text: str) -> Terms | None:
    typed = condition_typed(text, TEXT)
    assert typed.condition is not None
    return terms_of(typed.condition, typed.series_option)


@pytest.mark.parametrize(
    ("text", "every", "found"),
    [
        ("always", True, ()),
        ("suspension is leaf", True, (LEAF,)),
        ("suspension is leaf and series is s4 or s1", True, (LEAF, Term("series", How.IS, ("s1", "s4")))),
        ("suspension is leaf or wipers is not three", False, (LEAF, Term("wipers", How.IS_NOT, ("three",)))),
        ("wipers is usual and tunnel is not usual", True, (Term("wipers", How.USUAL), Term("tunnel", How.NOT_USUAL))),
        ("series is the donor's", True, (Term("series", How.DONORS),)),
        ("series is not the donor's", True, (Term("series", How.NOT_DONORS),)),
    ],
)  # fmt: skip
def test_a_plain_condition_is_a_list_of_terms(text: str, every: bool, found: tuple[Term, ...]) -> None:
    assert terms(text) == Terms(every, found)


@pytest.mark.parametrize(
    "text",
    [
        "donor series is s2",
        "suspension is leaf and donor gearbox is automatic",
        "suspension is leaf and (series is s1 or wipers is three)",
        "not (suspension is leaf and series is s1)",
    ],
)
def test_what_lists_can_not_say_is_written_out(text: str) -> None:
    assert terms(text) is None


def test_what_never_holds_is_one_of_no_terms() -> None:
    assert terms_of(NEVER, "series") == Terms(False, ())
