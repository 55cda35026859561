"""A book's text taken apart and put together again: nothing is lost, and what is not changed stays to the letter."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.drafting import Entry, Piece, entry_of, lines_of, rewritten, sheet_of
from rules.reading import read_book

TEXT = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8")
DEMO = read_book(TEXT, "demo/skerry.book")

TOOL = """\
# Above.
tool press
  # The label is the workshop's.
  label en: Press
  label de: Presse
  needed for: scuttle is vented and
    series is s1

  # Nobody knows why.
  reason en: Gone.
  reason de: Weg.
  # Last.
"""

LINES = st.sampled_from(
    ("", "# note", "  # note", "option a", "  label en: A", "    goes on", "  | a | b |", "  | c | d |", "| e |", "  x")
)


@settings(max_examples=100)
@given(st.lists(LINES, max_size=12).map("\n".join))
def test_any_text_is_put_together_as_it_was(text: str) -> None:
    assert sheet_of(text).text() == text


def test_line_ends_are_made_one_kind() -> None:
    assert sheet_of("\ufeffoption a\r\n  base: yes\r").text() == "option a\n  base: yes\n"


def test_the_demo_book_has_a_piece_for_each_block_and_each_is_an_entry() -> None:
    sheet = sheet_of(TEXT)
    entries = [entry_of(piece) for piece in sheet.pieces]
    assert sum(entry.kind == "option" for entry in entries) == len(DEMO.options)
    assert sum(entry.kind == "rule" for entry in entries) == len(DEMO.rules)
    assert all(entry.whole for entry in entries)


def test_an_entry_that_was_not_changed_keeps_its_lines() -> None:
    for piece in sheet_of(TEXT).pieces:
        assert rewritten(piece, entry_of(piece)) == piece.lines


def test_all_entries_written_anew_read_as_the_same_book() -> None:
    blocks = ("\n".join(lines_of(entry_of(piece))) for piece in sheet_of(TEXT).pieces)
    assert read_book("\n\n".join(blocks), "again.book") == DEMO


def test_a_line_of_the_text_is_found_in_its_piece() -> None:
    sheet = sheet_of(TEXT)
    lines = TEXT.split("\n")
    for number, begin in enumerate(sheet.begins()):
        assert lines[begin - 1] == sheet.pieces[number].lines[0]
        assert sheet.at(begin + 1) == (number, 1)
    assert sheet.at(1) is None


def test_a_changed_field_leaves_the_others_and_all_comments_as_they_were() -> None:
    piece = sheet_of(TOOL).pieces[0]
    entry = entry_of(piece)
    assert entry.value("needed for") == "scuttle is vented and series is s1"
    fields = tuple((name, "Broken." if name == "reason en" else value) for name, value in entry.fields)
    changed = rewritten(piece, replace(entry, fields=fields))
    assert "\n".join(changed) == TOOL.removeprefix("# Above.\n").rstrip("\n").replace("Gone.", "Broken.")


def test_a_comment_outlives_the_field_it_stood_above() -> None:
    piece = sheet_of(TOOL).pieces[0]
    entry = entry_of(piece)
    fields = tuple(field for field in entry.fields if field[0] != "reason en")
    changed = rewritten(piece, replace(entry, fields=fields))
    assert "  # Nobody knows why." in changed
    assert not any("reason en" in line for line in changed)


def test_of_two_rows_that_begin_alike_no_comment_is_lost() -> None:
    text = "usual\n  | when | a |\n  # one\n  | always | x |\n  # two\n  | always | y |"
    piece = sheet_of(text).pieces[0]
    changed = rewritten(piece, replace(entry_of(piece), rows=(("when", "a"), ("always", "z"))))
    assert [line for line in changed if "#" in line] == ["  # one", "  # two"]


def test_a_comment_above_a_row_goes_on_standing_above_it() -> None:
    text = "usual\n  | when   | a |\n  # one\n  | always | x |\n  # two\n  | s is b | y |"
    piece = sheet_of(text).pieces[0]
    rows = (("when", "a"), ("always", "z"), ("s is b", "y"))
    assert rewritten(piece, replace(entry_of(piece), rows=rows)) == tuple(text.replace("x |", "z |").split("\n"))


def test_a_table_stays_between_the_fields_it_stood_between() -> None:
    piece = next(p for p in sheet_of(TEXT).pieces if p.words == ("rule", "D2"))
    entry = entry_of(piece)
    changed = entry_of(Piece((), rewritten(piece, replace(entry, rows=(*entry.rows, ("chrome", "boxed"))))))
    assert changed.rows[-1] == ("chrome", "boxed")
    assert changed.fields == entry.fields
    lines = rewritten(piece, replace(entry, rows=(*entry.rows, ("chrome", "boxed"))))
    table = next(number for number, line in enumerate(lines) if "chrome" in line)
    assert table < next(number for number, line in enumerate(lines) if "reason en" in line)


def test_a_piece_is_put_in_taken_out_and_moved() -> None:
    sheet = sheet_of("option a\n\n# b's\noption b\n\noption c\n")
    new = sheet.with_after(0, lines_of(Entry("option", "n", (("base", "yes"),))))
    assert new.text() == "option a\n\noption n\n  base: yes\n\n# b's\noption b\n\noption c\n"
    assert new.without(1) == sheet
    assert sheet.without(1).text() == "option a\n\noption c\n"
    assert sheet.moved(1, 2).text() == "option a\n\noption c\n\n# b's\noption b\n"


def test_a_line_that_is_neither_field_nor_row_leaves_only_the_text() -> None:
    assert not entry_of(sheet_of("option a\n  nonsense").pieces[0]).whole
    assert not entry_of(sheet_of("option a\n  base: yes\n  base: no").pieces[0]).whole
