"""A book written out and read again is the same book; what is written is fit for a reader."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.condition import All, Any, Condition, DonorGearbox, DonorNumber, DonorSeries, Is, IsUsual, Not, SeriesAsDonor
from rules.donor.usual import key_options
from rules.model import Kind, Rule, Terms
from rules.reading import read_book
from rules.writing import write_book
from rules.writing.layout import table

DEMO = read_book((Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8"), "demo/skerry.book")

CHOICES = [(option.id, tuple(choice.id for choice in option.choices)) for option in DEMO.options]

KEYS = key_options(DEMO)

ATOMS = st.one_of(
    st.sampled_from(CHOICES).flatmap(
        lambda each: st.builds(
            Is, st.just(each[0]), st.frozensets(st.sampled_from(each[1]), min_size=1, max_size=len(each[1]))
        )
    ),
    st.builds(IsUsual, st.sampled_from([option for option, _ in CHOICES if option not in KEYS])),
    st.just(SeriesAsDonor()),
    st.builds(DonorSeries, st.frozensets(st.sampled_from(("s1", "s2")), min_size=1)),
    st.builds(DonorGearbox, st.frozensets(st.sampled_from(("manual", "automatic")), min_size=1)),
    st.sampled_from((DonorNumber("s2", None, 6200), DonorNumber("s2", 6201, None), DonorNumber("s1", 300, 400))),
)


def _joined(parts: st.SearchStrategy[Condition]) -> st.SearchStrategy[Condition]:
    several = st.lists(parts, min_size=2, max_size=4).map(tuple)
    return st.one_of(st.builds(All, several), st.builds(Any, several), st.builds(Not, parts))


@settings(max_examples=40)
@given(st.recursive(ATOMS, _joined, max_leaves=12))
def test_any_condition_written_out_reads_as_itself(condition: Condition) -> None:
    rule = Rule("X1", frozenset((Kind.NEVER,)), condition, None, {"en": "No.", "de": "Nein."})
    book = replace(DEMO, rules=(*DEMO.rules, rule))
    assert read_book(write_book(book), "again.book").rule("X1").when == condition


def test_the_demo_book_written_out_reads_as_itself() -> None:
    assert read_book(write_book(DEMO), "again.book") == DEMO


def test_writing_twice_gives_the_same_text() -> None:
    text = write_book(DEMO)
    assert write_book(read_book(text, "again.book")) == text


def test_no_line_of_text_is_wider_than_a_page() -> None:
    assert max(len(line) for line in write_book(DEMO).split("\n") if "|" not in line) <= 122


def test_a_bar_in_a_label_and_an_odd_penny_survive() -> None:
    line = replace(DEMO.lines[0], amounts={"GBP": 1, "EUR": -1234567, "USD": 0})
    label = {"en": "hood | hardtop", "de": "Verdeck | Hardtop"}
    choice = replace(DEMO.options[0].choices[0], label=label)
    option = replace(DEMO.options[0], choices=(choice, *DEMO.options[0].choices[1:]))
    line = replace(line, label={code: f"{option.label[code]}: {text}" for code, text in label.items()})
    book = replace(DEMO, options=(option, *DEMO.options[1:]), lines=(line, *DEMO.lines[1:]))
    again = read_book(write_book(book), "again.book")
    assert again.options[0].choices[0].label["en"] == "hood | hardtop"
    assert again.lines[0].amounts == {"GBP": 1, "EUR": -1234567, "USD": 0}


@pytest.mark.parametrize("row", [("1",), ("1", "2", "3")])
def test_a_row_without_a_cell_for_each_column_is_never_written(row: tuple[str, ...]) -> None:
    assert table(("a", "b"), [("100", "2")]) == ["| a   | b |", "| 100 | 2 |"]
    with pytest.raises(ValueError, match="zip"):
        table(("a", "b"), [row])


def test_terms_with_half_percents_survive() -> None:
    terms = Terms(Decimal("12.5"), 14, 2, Decimal("2.5"), "A", Decimal("19.75"))
    assert read_book(write_book(replace(DEMO, terms=terms)), "again.book").terms == terms
