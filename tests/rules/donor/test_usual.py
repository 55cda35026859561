"""What was usual, as a table over choices: what a rule that says “is usual” hangs on, by the scenario's own tables."""

from __future__ import annotations

from rules.condition import Among, IsUsual, options_of
from rules.donor.resolve import resolve, usual_table
from rules.specification import Donor
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()


def test_what_was_usual_hangs_on_what_its_rows_tell_apart_and_on_nothing_else() -> None:
    """The hood on the body, the tunnel on the series, the hand on the market, the rear window on two, paint on none."""
    hangs = {
        "hood": {"body"},
        "tunnel": {"series"},
        "steering": {"market"},
        "rear-window": {"series", "body"},
        "finish": set(),
    }
    for option, keys in hangs.items():
        assert options_of(resolve(IsUsual(option), BOOK, NO_DONOR)) == {option, *keys}


def test_the_usual_rear_window_of_an_early_s2_coupe_is_small_once_its_number_is_known() -> None:
    rows = {
        *((series, "roadster", "none") for series in ("s1", "s2", "s3", "s4")),
        *((series, "coupe", "large") for series in ("s3", "s4")),
        ("s1", "coupe", "small"),
    }
    columns = ("series", "body", "rear-window")
    late, early = ("s2", "coupe", "large"), ("s2", "coupe", "small")
    assert usual_table(BOOK, "rear-window", Donor("s2", 6201)) == Among(columns, frozenset((*rows, late)))
    assert usual_table(BOOK, "rear-window", Donor("s2", 6200)) == Among(columns, frozenset((*rows, early)))
