"""Mistakes in what a book says of making a shell: each at its line, with what to write instead."""

from __future__ import annotations

from decimal import Decimal

import pytest

from rules.reading import BookMistakes, read_book

SMALL = """\
book small
  title en: Small
  languages: en
groups
  | group | en |
  | g | G |
option hand
  group: g
  label en: Hand
  | choice | en |
  | left | Left |
  | right | Right |
stage jig
  days: 1
  label en: Jig
processes
  | process | en |
  | 21 | Spot |
operations jig
  | operation | sort | process | when | en |
  | frame | | 21 | always | Weld it |
  | look | hold | | always | Look at it |
zones
  | zone | operation | welds | sheets | when | en |
  | sill | frame | 40 | 0.9 / 1.2 | always | Sill |
holes
  mirrored: hand is right
  | hole | sort | stage | size | x | y | handed | drill | blank | leave | en |
  | column | hole | jig | 62 | 1420 | -355 | yes | hand is left | hand is right | | Column |
"""

_HEAD = "  | operation | sort | process | when | en |\n"

# what stands in the book, what is written instead, the line complained of, what is wrong, what to write
MISTAKES = [
    ("| 21 | Spot |", "| 21 | Spot |\n  | spot | Spot |", "| spot |",
     "“spot” is no number of a welding process", "ISO 4063"),
    ("operations jig", "operations jgi", "operations jgi", "there is no stage “jgi”", "did you mean “jig”?"),
    ("| frame | 40", "| look | 40", "| sill |", "operation look welds nothing", "name a process"),
    ("| frame | 40", "| fram | 40", "| sill |", "there is no operation “fram”", "did you mean “frame”?"),
    ("| 40 |", "| 0 |", "| sill |", "a zone without a weld is none", "how many there are"),
    ("0.9 / 1.2", "0.9", "| sill |", "“0.9” is no joint of sheets", "like 0.9 / 1.2"),
    ("| 62 |", "|  |", "| column |", "a hole has a size", "like 6.5"),
    ("  mirrored: hand is right\n", "", "| column |", "“column” is handed, but nothing says", "mirrored: "),
    ("| hand is left | hand is right |", "| always | hand is right |", "| column |",
     "“column” would be both drilled and blanked with hand right", "exclude each other"),
    ("| hand is left | hand is right | |", "| | | |", "| column |", "“column” is never drilled, blanked or left",
     "“always”"),
    ("  | look |", "  | frame | | 21 | always | Again |\n  | look |", "Again",
     "operation “frame” stands here a second time", "another id"),
    ("Weld it", "Weld {it}", "| frame | | 21", "nothing fills “{it}” in “en”", "take the braces out"),
    ("zones\n", "zones x\n", "zones x", "“zones” takes no name", "“zones” alone"),
    ("zones\n", f"operations jig\n{_HEAD}  | go | | | always | Go |\nzones\n", None,
     "operations of “jig” stand here a second time", "into one table"),
]  # fmt: skip


def test_the_small_book_has_no_mistake() -> None:
    made = read_book(SMALL, "small.book").making
    assert (len(made.operations), made.zones[0].welds, made.holes[0].y) == (2, 40, -355)


def test_a_minus_may_be_a_typeset_one_and_a_sheet_as_thick_as_ten_millimetres() -> None:
    made = read_book(SMALL.replace("-355", "\u2212355").replace("0.9 / 1.2", "0.9 / 10"), "small.book").making
    assert (made.holes[0].y, made.zones[0].sheets) == (-355, (Decimal("0.9"), Decimal(10)))


@pytest.mark.parametrize(("old", "new", "where", "what", "instead"), MISTAKES, ids=lambda value: str(value)[:24])
def test_a_mistake_is_told_at_its_line(old: str, new: str, where: str | None, what: str, instead: str) -> None:
    assert SMALL.count(old) == 1
    text = SMALL.replace(old, new)
    with pytest.raises(BookMistakes) as refused:
        read_book(text, "small.book")
    (mistake,) = refused.value.mistakes
    assert mistake.what.startswith(what)
    assert instead in mistake.instead
    if where is not None:
        assert where in text.split("\n")[mistake.line - 1]
