"""How a text may be laid out: comments, long values, line ends, prices with their several marks."""

from __future__ import annotations

import pytest

from rules.model import Book
from rules.reading import BookMistakes, read_book

HEAD = """book tiny
  title en: Tiny
  languages: en
groups
  | group | en |
  | g | G |
categories
  | category | en |
  | A | Shell |
lists
  | list | currency | en |
  | GBP | GBP | Sterling |
  | KWD | KWD | Dinar |
"""


def priced(first: str, second: str = "— | —") -> Book:
    rows = f"  | choice | en | GBP | KWD |\n  | one | One | {first} |\n  | two | Two | {second} |\n"
    return read_book(f"{HEAD}option o\n  group: g\n  category: A\n  label en: O\n{rows}", "tiny.book")


def amounts(book: Book) -> dict[str, int]:
    return dict(book.lines[0].amounts)


def test_amounts_are_major_units_and_are_kept_in_minor_units_of_their_currency() -> None:
    # ISO 4217 by PyPI iso4217: GBP has two decimals, KWD three.
    assert amounts(priced("11 850 | 1.5")) == {"GBP": 1185000, "KWD": 1500}


def test_thousands_may_stand_apart_by_any_kind_of_space() -> None:
    for space in (" ", "\u00a0", "\u2009", "\u202f", ""):
        assert amounts(priced(f"1{space}850.50 | 1")) == {"GBP": 185050, "KWD": 1000}


def test_a_minus_may_be_a_hyphen_or_a_minus_sign() -> None:
    assert amounts(priced("-420 | −0.125")) == {"GBP": -42000, "KWD": -125}


def test_decimals_of_zero_beyond_the_currencys_are_no_mistake() -> None:
    assert amounts(priced("1.500 | 1")) == {"GBP": 150, "KWD": 1000}


def test_a_dash_is_included_and_has_no_line() -> None:
    for dash in ("-", "–", "—", "−"):
        assert [line.id for line in priced("1 | 1", f"{dash} | {dash}").lines] == ["o.one"]


def test_an_empty_cell_is_not_priced_and_is_no_zero() -> None:
    assert amounts(priced("5 | ")) == {"GBP": 500}
    assert amounts(priced(" | ")) == {}


def test_included_in_one_list_and_priced_in_another_is_nought_and_an_amount() -> None:
    assert amounts(priced("— | 2")) == {"GBP": 0, "KWD": 2000}


def test_a_zero_is_a_price() -> None:
    assert amounts(priced("0 | 0")) == {"GBP": 0, "KWD": 0}


def test_a_line_is_labelled_by_its_option_and_its_choice() -> None:
    assert priced("1 | 1").lines[0].label == {"en": "O: One"}


def test_a_long_value_goes_on_in_deeper_lines_and_a_comment_may_stand_between() -> None:
    text = "option o\n  group: g\n  # aside\n  label en: A long\n     label that\n    # aside\n     goes on\n"
    book = read_book(f"{HEAD}{text}  | choice | en | GBP | KWD |\n  | one | One | - | - |\n", "tiny.book")
    assert book.option("o").label == {"en": "A long label that goes on"}


def test_line_ends_of_any_system_and_a_byte_order_mark_make_no_difference() -> None:
    text = HEAD + "option o\n  group: g\n  label en: O\n  | choice | en | GBP | KWD |\n  | one | One | - | - |\n"
    book = read_book(text, "tiny.book")
    assert read_book(text.replace("\n", "\r\n"), "tiny.book") == book
    assert read_book(text.replace("\n", "\r"), "tiny.book") == book
    assert read_book("\ufeff" + text, "tiny.book") == book


def test_blocks_may_stand_in_any_order() -> None:
    blocks = HEAD.replace("\n", "\n").split("\ngroups")
    option = "option o\n  group: g\n  label en: O\n  | choice | en | GBP | KWD |\n  | one | One | - | - |\n"
    assert read_book(f"{option}{blocks[0]}\ngroups{blocks[1]}", "tiny.book") == read_book(HEAD + option, "tiny.book")


def test_columns_may_stand_in_any_order() -> None:
    """The ids are those of the column that is for them, not of the first."""
    rule = "rule R\n  never: o is one and p is two\n  reason en: No.\n"
    options = "".join(
        f"option {option}\n  group: g\n  category: A\n  label en: O\n  | choice | en | GBP | KWD |\n"
        "  | one | One | 1 | 2 |\n  | two | Two | 3 | 4 |\n"
        for option in "op"
    )
    book = f"{HEAD}{options}{rule}"
    for head in ("group", "category", "list", "choice"):
        assert read_book(_turned(book, head), "tiny.book") == read_book(book, "tiny.book"), head


def test_a_row_that_ends_before_the_column_with_its_id_is_told_of_and_declares_nothing() -> None:
    text = HEAD.replace("  | group | en |\n  | g | G |\n", "  | en | group |\n  | G | g |\n  | H |\n")
    with pytest.raises(BookMistakes) as refused:
        read_book(f"{text}option o\n  group: h\n  label en: O\n  | choice | en | GBP | KWD |\n", "tiny.book")
    assert [mistake.what for mistake in refused.value.mistakes][:2] == [
        "the row has 1 cells, the table 2 columns",
        "there is no group “h”",
    ]


def _turned(text: str, head: str) -> str:
    """With the first column of every such table behind the others."""
    lines, turning = [], False
    for line in text.split("\n"):
        cells = line.split("|")
        turning = line.startswith("  |") and (turning or cells[1].strip() == head)
        lines.append("|".join((cells[0], *cells[2:-1], cells[1], "")) if turning else line)
    return "\n".join(lines)


def test_a_rule_and_a_tool_know_their_line() -> None:
    option = "option o\n  group: g\n  label en: O\n  | choice | en | GBP | KWD |\n  | one | One | - | - |\n"
    rule = "rule R1\n  never: o is one\n  reason en: No.\n"
    place = read_book(HEAD + option + rule, "tiny.book").rule("R1").place
    assert place is not None
    assert (place.file, place.line) == ("tiny.book", (HEAD + option).count("\n") + 1)
