"""The list of standard shells, read back from its PDF and its CSV. Prices are sums of the scenario's price table."""

from __future__ import annotations

import csv
from dataclasses import replace
from datetime import date
from functools import cache
from io import StringIO

from app.documents.contents import Sheet
from app.documents.lists.standard_csv import major, standard_shells_csv
from app.documents.lists.standard_shells import StandardShellsPaper, standard_shells_pdf
from rules.model import ToolCondition
from rules.proof import Price, Proof, prove
from rules.specification import Donor
from tests.documents.orders import FIRM, LOST, book
from tests.documents.reading import characters_outside, faults, fonts, pages, whole


@cache
def proof() -> Proof:
    return prove(book(), dict.fromkeys(LOST, ToolCondition.LOST))


def paper(language: str = "en", locale: str = "en_GB", sheet: Sheet = Sheet.A4) -> StandardShellsPaper:
    day = date(2026, 11, 25)
    return StandardShellsPaper(book(), 4, FIRM, day, proof().standard, proof().broken, language, locale, sheet)


@cache
def printed(language: str = "en", locale: str = "en_GB") -> bytes:
    return standard_shells_pdf(paper(language, locale))


def test_every_standard_shell_stands_with_its_price_on_each_list() -> None:
    # roadster 11 850 + holes blanked 60 + dolly 240; coupé 13 200; scenario.md, prices and usual rows
    assert "S2 Home Roadster – 12,150.00 14,565.00 16,300.00" in whole(printed())
    # S3 North America: three wipers 40, markers front and rear 110
    assert "S3 North America Roadster – 12,240.00 14,670.00 16,425.00" in whole(printed())
    first = pages(printed())[0]
    assert sum(first.count(f"{series} {market} ") for series in ("S2", "S3", "S4") for market in
               ("Home", "Europe", "North America", "Southern Africa")) == 24  # fmt: skip


def test_a_car_with_the_small_window_stands_apart_with_what_it_waits_for() -> None:
    assert "S2 · Home · Coupé as T2-06200 Rear window: Small P4: Customer’s small window ring 14,220.00" in whole(
        printed()
    )


def test_what_cannot_be_built_is_said_with_its_reason() -> None:
    assert "Not on this list" in whole(printed())
    assert "S1 · Home · Roadster; S1 · Home · Coupé;" in whole(printed())
    assert "N1: The press for the vented scuttle is gone" in whole(printed())


def test_in_german_everything_is_german() -> None:
    said = whole(printed("de", "de_DE"))
    assert "S2 Heimatmarkt Roadster – 12.150,00 14.565,00 16.300,00" in said
    assert "Stand 25. November 2026, nach Regelwerk 12" in said
    assert [word for word in ("the ", "Home", "donor", "From") if word in said] == []


def test_the_paper_says_whose_it_is_of_which_book_and_how_many_sheets() -> None:
    (*_, last) = pages(printed())
    assert "Ravensmoor Body Company" in last
    assert "12 · 4" in last
    count = len(pages(printed()))
    assert f"{count} of {count}" in last


def test_it_is_sound_and_nothing_is_cut_off_on_either_sheet() -> None:
    for sheet in Sheet:
        data = standard_shells_pdf(paper(sheet=sheet))
        assert faults(data) == []
        assert all(fonts(data).values())
        assert characters_outside(data, 20) == []


def test_the_same_list_gives_the_same_bytes() -> None:
    assert standard_shells_pdf(paper()) == printed()


def test_a_list_without_a_price_says_so() -> None:
    shell = replace(proof().standard[0], prices=(Price("GBP", None), Price("EUR", 0), Price("USD", 100)))
    said = whole(standard_shells_pdf(replace(paper(), shells=(shell,))))
    assert "not priced 0.00 1.00" in said


def test_where_nothing_can_be_built_the_paper_says_that() -> None:
    assert "No shell can be built as the original car had it." in whole(
        standard_shells_pdf(replace(paper(), shells=(), broken=()))
    )


def rows(language: str = "en") -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(standard_shells_csv(book(), proof().standard, language), newline="")))


def test_a_row_of_the_csv_has_ids_labels_and_amounts_in_major_units() -> None:
    row = rows("de")[0]
    assert (row["series"], row["market"], row["market_label"], row["body"]) == ("s2", "home", "Heimatmarkt", "roadster")
    assert (row["price_list"], row["currency"], row["price_from"]) == ("GBP", "GBP", "12150.00")
    assert (row["steering"], row["packing"], row["needs"]) == ("right", "dolly", "")


def test_every_shell_is_in_the_csv_on_every_list() -> None:
    assert len(rows()) == 3 * len(proof().standard)
    assert len([row for row in rows() if not row["donor_number"] and not row["donor_gearbox"]]) == 3 * 24
    small = next(row for row in rows() if row["donor_number"] == "T2-06200")
    assert (small["rear-window"], small["needs"], small["price_from"]) == ("small", "P4", "14220.00")


def test_what_is_not_priced_is_empty_in_the_csv_and_never_nought() -> None:
    shell = replace(proof().standard[0], prices=(Price("GBP", None),), donor=Donor())
    (row,) = csv.DictReader(StringIO(standard_shells_csv(book(), (shell,)), newline=""))
    assert (row["price_list"], row["currency"], row["price_from"]) == ("GBP", "GBP", "")


def test_major_units_have_as_many_decimals_as_the_currency() -> None:
    """ISO 4217: two minor digits for GBP, none for JPY."""
    assert (major(1350000, "GBP"), major(-5, "EUR"), major(1350, "JPY")) == ("13500.00", "-0.05", "1350")
