"""Prices of a draft in one sheet: raised half up, taken out and brought back, wrong sheets told line by line."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from rules.drafting import sheet_of
from rules.drafting.amounts import amounts_of, as_csv, lists_of, raised, with_csv
from rules.reading import read_book

TEXT = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8")
SHEET = sheet_of(TEXT)

SMALL = """\
lists
  | list | currency | en |
  | GBP  | GBP      | Pounds |
  | JPY  | JPY      | Yen |
option paint
  label en: Paint
  | choice | en   | GBP   | JPY |
  | none   | None | —     | —   |
  | one    | One  | 10.05 | 15  |
  | two    | Two  |       | 3   |
line less
  label en: Less
  | GBP | JPY |
  | -10.05 | -15 |
"""


def _cells(text: str) -> dict[str, dict[str, str]]:
    return {priced.name: dict(priced.cells) for priced in amounts_of(sheet_of(text))}


def test_lists_have_the_decimals_of_their_currency() -> None:
    """ISO 4217: two for GBP, none for JPY."""
    assert lists_of(sheet_of(SMALL)) == {"GBP": 2, "JPY": 0}


def test_raised_by_a_tenth_amounts_round_half_up_and_dashes_and_gaps_stay() -> None:
    new = raised(sheet_of(SMALL), ("paint.none", "paint.one", "paint.two", "less"), ("GBP", "JPY"), Decimal(10),
                 Decimal("0.01")).text()  # fmt: skip
    assert _cells(new) == {
        "paint.none": {"GBP": "—", "JPY": "—"},
        "paint.one": {"GBP": "11.06", "JPY": "17"},
        "paint.two": {"GBP": "", "JPY": "3"},
        "less": {"GBP": "-11.06", "JPY": "-17"},
    }


def test_a_step_of_five_pounds_is_kept() -> None:
    new = raised(SHEET, ("body.roadster",), ("GBP",), Decimal("3.5"), Decimal(5))
    assert _cells(new.text())["body.roadster"] == {"GBP": "12 265", "EUR": "14 200", "USD": "15 900"}


def test_only_what_was_named_is_raised() -> None:
    new = raised(SHEET, ("body.coupe", "storage"), ("EUR",), Decimal(100), Decimal(1))
    before, after = _cells(TEXT), _cells(new.text())
    assert {name for name in before if before[name] != after[name]} == {"body.coupe", "storage"}
    assert (after["body.coupe"]["EUR"], after["body.coupe"]["GBP"]) == ("31 600", "13 200")


def test_a_sheet_taken_out_and_brought_back_changes_nothing() -> None:
    assert with_csv(SHEET, as_csv(SHEET)) == (SHEET, ())
    assert with_csv(SHEET, as_csv(SHEET).replace(",", ";")) == (SHEET, ())


def test_a_pasted_column_changes_that_list_alone() -> None:
    new, faults = with_csv(SHEET, "price\tGBP\nbody.coupe\t13 500.50\nscuttle.plain\t—\n")
    assert faults == ()
    book = read_book(new.text(), "x")
    (coupe,) = (line for line in book.lines if (line.option, line.choice) == ("body", "coupe"))
    assert dict(coupe.amounts) == {"GBP": 1_350_050, "EUR": 1_580_000, "USD": 1_770_000}


def test_every_fault_of_a_pasted_sheet_is_told_and_nothing_is_taken_over() -> None:
    new, faults = with_csv(SHEET, "price,GBP\nbody.cupe,1\nbody.coupe,£5\nbody.coupe\n")
    assert new is SHEET
    assert [(fault.line, fault.what) for fault in faults] == [
        (2, "the book prices nothing called “body.cupe”"),
        (3, "“£5” is no amount"),
        (4, "the line has not as many cells as the first"),
    ]
    assert faults[0].instead == "did you mean “body.coupe”?"


def test_a_sheet_without_its_heading_is_refused_with_what_to_write() -> None:
    assert with_csv(SHEET, "\n")[1][0].instead == "begin with a line price, label, and the price lists"
    assert [fault.what for fault in with_csv(SHEET, "body.coupe,YEN\n")[1]] == [
        "no column is called “price”",
        "there is no price list “body.coupe”",
        "there is no price list “YEN”",
    ]


def test_a_row_of_amounts_says_what_it_prices_where_it_stands_and_of_which_category() -> None:
    text = SMALL.replace("option paint\n", "option paint\n  category: B\n")
    told = [(one.name, one.of, one.category, one.label, one.piece, one.row) for one in amounts_of(sheet_of(text))]
    assert told == [
        ("paint.none", "paint", "B", "Paint: None", 1, 1),
        ("paint.one", "paint", "B", "Paint: One", 1, 2),
        ("paint.two", "paint", "B", "Paint: Two", 1, 3),
        ("less", "less", "", "Less", 2, 1),
    ]


def test_the_csv_has_a_heading_and_each_cell_as_the_book_has_it() -> None:
    """RFC 4180: lines end with CR LF, a cell with a comma is quoted."""
    text = SMALL.replace("label en: Paint", "label en: Paint, all")
    assert as_csv(sheet_of(text)).split("\r\n") == [
        "price,label,GBP,JPY",
        'paint.none,"Paint, all: None",—,—',
        'paint.one,"Paint, all: One",10.05,15',
        'paint.two,"Paint, all: Two",,3',
        "less,Less,-10.05,-15",
        "",
    ]


def test_a_list_of_an_unknown_currency_has_two_decimals_and_a_text_without_lists_none() -> None:
    assert lists_of(sheet_of(SMALL.replace("JPY      | Yen", "QQQ      | Yen"))) == {"GBP": 2, "JPY": 2}
    assert lists_of(sheet_of("option a\n")) == {}
    assert lists_of(sheet_of("lists\n  | list | en |\n  | GBP | Pounds |\n")) == {}


def test_a_raise_is_never_finer_than_the_currency() -> None:
    new = raised(sheet_of(SMALL), ("paint.one",), ("JPY",), Decimal(10), Decimal("0.01"))
    assert _cells(new.text())["paint.one"] == {"GBP": "10.05", "JPY": "17"}


def test_a_column_that_stands_twice_is_refused_by_its_name() -> None:
    assert [(f.line, f.what, f.instead) for f in with_csv(SHEET, "price,GBP,GBP\nbody.coupe,1,2\n")[1]] == [
        (1, "the column “GBP” stands twice", "take one of them out")
    ] * 2
