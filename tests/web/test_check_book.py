"""`check-book` as a manager runs it: the proof in words, what another book does, the list for a spreadsheet."""

from __future__ import annotations

import csv
import re
from io import StringIO
from pathlib import Path

import pytest

from app.cli import main

BOOK = Path(__file__).resolve().parents[2] / "demo" / "skerry.book"

#: The tools that the demo firm has lost (scenario.md, *What is lost*).
LOST = ("vented-scuttle-press", "narrow-tunnel-press", "small-window-press", "bulkhead-r-na")


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str]:
    """How it ended, and what it printed, each paragraph on one line."""
    code = main(["check-book", str(BOOK), *arguments])
    return code, " ".join(capsys.readouterr().out.split())


def test_the_demos_book_is_sound_and_says_what_is_worth_knowing(capsys: pytest.CaptureFixture[str]) -> None:
    code, said = told(capsys, "--lost", *LOST)
    assert code == 0
    assert "The book is sound" in said
    assert "The usual S1 · Home · Coupé can’t be built. What forbids it: N1 “Vented scuttle”." in said
    assert "“Delivery: Door, elsewhere abroad” is priced on no list" in said
    assert "No shell can have “Scuttle: Vented”. It is declared lost." in said
    assert "structures that can be built 50496" in said
    assert "Series: S2 1,445,713,920, of them 10,039,680 outright" in said
    assert "S2 · Home · Coupé GBP 13,500.00, EUR 16,165.00, USD 18,100.00" in said


def test_a_tool_taken_as_lost_makes_a_fault_and_the_command_ends_with_one(capsys: pytest.CaptureFixture[str]) -> None:
    code, said = told(capsys, "--lost", "four-link-tool")
    assert code == 1
    assert "The book has 2 faults." in said
    assert "! No shell can have “Suspension mountings: Four-link with tall front turrets”" in said
    assert "What forbids it: four-link-tool “Four-link bracket tool”." in said
    # a witness that shows the needless rule
    assert "N3 “Four-link with the narrow tunnel” could be left out" in said
    assert "For instance: S1 · Home · Roadster, as the original car was but for Suspension mountings:" in said


def test_a_region_whose_holidays_nobody_knows_is_a_mistake_with_its_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    text = BOOK.read_text(encoding="utf-8").replace("holidays: GB-ENG", "holidays: GB-XYZ", 1)
    file = tmp_path / "odd.book"
    file.write_text(text, encoding="utf-8")
    line = next(number for number, row in enumerate(text.splitlines(), 1) if "GB-XYZ" in row)
    assert main(["check-book", str(file)]) == 1
    assert f"{file}:{line}: no public holidays are known for “GB-XYZ”: " in capsys.readouterr().err


def test_what_the_line_art_cannot_draw_is_a_mistake_with_its_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    text = BOOK.read_text(encoding="utf-8").replace("body/coupe", "body/cuope", 1)
    file = tmp_path / "odd.book"
    file.write_text(text, encoding="utf-8")
    line = next(number for number, row in enumerate(text.splitlines(), 1) if "body/cuope" in row)
    assert main(["check-book", str(file)]) == 1
    said = f"{file}:{line}: the line art has no element “body/cuope”: did you mean “body/coupe”?"
    assert said in capsys.readouterr().err


def test_findings_stand_under_what_they_weigh(capsys: pytest.CaptureFixture[str]) -> None:
    _, said = told(capsys, "--lost", *LOST, "four-link-tool")
    assert re.search(r"Faults ! No shell .* To look at - .* As declared - The usual S1 ", said)


def test_in_german(capsys: pytest.CaptureFixture[str]) -> None:
    code, said = told(capsys, "--language", "de")
    assert (code, "Das Buch ist in Ordnung" in said, "GBP 12.150,00" in said) == (0, True, True)


def test_a_tool_that_the_book_has_not_is_named_with_those_it_has(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-book", str(BOOK), "--lost", "narow-tunnel-press"]) == 1
    said = capsys.readouterr().err
    assert "There is no tool narow-tunnel-press." in said
    assert "narrow-tunnel-press" in said


def test_the_csv_alone_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-book", str(BOOK), "--csv"]) == 0
    rows = list(csv.DictReader(StringIO(capsys.readouterr().out)))
    assert (rows[0]["series"], rows[0]["currency"], rows[0]["price_from"]) == ("s2", "GBP", "12150.00")


def test_against_another_book_what_is_lost_and_what_costs_more(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without N4 the other book gives roadsters a folding roof: this one loses them."""
    text = BOOK.read_text(encoding="utf-8").replace("Roadster | 11 850 |", "Roadster | 12 050 |")
    start = text.index("\nrule N4\n")
    other = tmp_path / "other.book"
    other.write_text(text[:start] + text[text.index("\nrule N5\n") :], encoding="utf-8")
    code, said = told(capsys, "--against", str(other))
    assert code == 0
    assert "structures" in said
    assert "Roof opening: Folding lost" in said
    assert "Body: Roadster GBP 12,050.00 → GBP 11,850.00" in said
    assert "Lost, for instance: Body: Roadster;" in said
    assert "One amount on the price lists has moved." in said


def test_an_other_book_with_mistakes_has_them_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = tmp_path / "wrong.book"
    wrong.write_text("nonsense\n", encoding="utf-8")
    assert main(["check-book", str(BOOK), "--against", str(wrong)]) == 1
    said = capsys.readouterr()
    assert (f"{wrong}:1:" in said.err, said.out) == (True, "")
