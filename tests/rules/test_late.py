"""The table of late changes against trade.md's own (candidate policy, common practice): stage by stage."""

from __future__ import annotations

import pytest

from rules.late import freeze_line, taken_at
from rules.model import Allowed, Book
from rules.specification import Donor
from tests.rules.demo_book import whole

STAGES = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap", "inspection", "paint", "despatched")

#: Columns: ordered, then STAGES. F free, £ priced, A approval, X no.
TABLE = {
    "contact": "FFFFFFFFX",
    "delivery": "FFFFF£££X",
    "structure": "FAXXXXXXX",
    "upper": "FAAXXXXXX",
    "rear": "FAAXXXXXX",
    "anchorages": "AAAAAAXXX",
    "outer-parts": "FFFF££AAX",
    "holes": "FFFF££AAX",
    "roof-opening": "F£££AAXXX",
    "to-painted": "FFFFF££AX",
    "to-primed": "FFFFFF£XX",
    "protection": "FFFFFFF£X",
}
MARKS = {"F": Allowed.FREE, "£": Allowed.PRICED, "A": Allowed.APPROVAL, "X": Allowed.NO}


@pytest.mark.parametrize("change", TABLE)
def test_a_change_is_taken_as_the_trades_table_says_at_every_stage(change: str) -> None:
    found = next(one for one in whole().late_changes if one.id == change)
    said = [taken_at(found, ("ordered", *STAGES[:come])) for come in range(len(STAGES) + 1)]
    # "painted to primed" of trade.md: a painted shell that is despatched can't be had back either.
    assert said == [MARKS[mark] for mark in TABLE[change]]


def _line(book: Book, finish: str, *come: str) -> dict[str, tuple[str, str | None]]:
    settled = {option.id: option.choices[0].id for option in book.options} | {"finish": finish}
    ahead = [stage for stage in STAGES if stage not in come and (finish == "painted" or stage != "paint")]
    line = freeze_line(book, settled, Donor(), ("ordered", *come), ahead)
    return {one.change.id: (one.now.value, one.next and one.next[0]) for one in line}


def test_a_primed_shell_passes_over_the_row_of_paint_and_is_asked_only_what_a_primed_one_can_become() -> None:
    line = _line(whole(), "primed", *STAGES[:6])
    assert line["protection"] == ("free", "despatched")
    assert line["to-painted"] == ("priced", "despatched")
    assert "to-primed" not in line


def test_the_line_says_what_locks_next_and_where() -> None:
    line = _line(whole(), "painted", "sub-assembly")
    assert line["structure"] == ("approval", "framing")
    assert line["upper"] == ("approval", "rollover")
    assert line["holes"] == ("free", "skinning")
    assert line["to-primed"] == ("free", "inspection")
