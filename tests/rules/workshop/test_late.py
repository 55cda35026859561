"""The table of late changes against trade.md's own (candidate policy, common practice): stage by stage."""

from __future__ import annotations

import pytest

from rules.model import Allowed, Book
from rules.specification import Donor
from rules.workshop.late import freeze_line, gravest, taken_at, taken_each
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


def _each(finish: str, come: tuple[str, ...], *options: str) -> list[tuple[str, Allowed, str | None]]:
    settled = {option.id: option.choices[0].id for option in whole().options} | {"finish": finish}
    taken = taken_each(whole(), settled, Donor(), ("ordered", *come), options)
    return [(one.option, one.taken, one.change.id if one.change else None) for one in taken]


def test_of_rows_that_speak_of_an_option_the_one_that_speaks_of_most_of_the_changes_counts() -> None:
    """A hole and paint on a primed shell at skinning: the hole is priced, the paint still free."""
    at = STAGES[:4]
    assert _each("primed", at, "holes", "finish", "colour", "scope") == [
        ("holes", Allowed.PRICED, "holes"),
        ("finish", Allowed.FREE, "to-painted"),
        ("colour", Allowed.FREE, "to-painted"),
        ("scope", Allowed.FREE, "to-painted"),
    ]


def test_back_to_primer_is_taken_as_that_and_not_as_a_colour() -> None:
    inspected, painted = STAGES[:6], STAGES[:7]
    changes = ("finish", "colour", "scope")
    assert [one[1:] for one in _each("painted", inspected, *changes)] == [(Allowed.PRICED, "to-primed")] * 3
    assert [one[1] for one in _each("painted", painted, *changes)] == [Allowed.NO] * 3


def test_what_no_row_speaks_of_is_taken_with_approval() -> None:
    assert _each("primed", (), "trial-fit", "nothing") == [
        ("trial-fit", Allowed.APPROVAL, None),
        ("nothing", Allowed.APPROVAL, None),
    ]


def test_the_gravest_of_several_counts_for_all_of_them() -> None:
    said = taken_each(whole(), {}, Donor(), ("ordered", *STAGES[:2]), ("holes", "bumpers", "body"))
    assert (gravest(said), gravest(said[:2]), gravest(said[:1]), gravest(())) == (
        Allowed.NO,
        Allowed.APPROVAL,
        Allowed.FREE,
        Allowed.FREE,
    )
