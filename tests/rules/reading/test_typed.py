"""One condition as it is typed, held against a book's text that may have mistakes of its own."""

from __future__ import annotations

from rules.condition import Is, SeriesAsDonor
from rules.reading.typed import Typed, condition_typed
from tests.rules.demo_book import FILE

TEXT = FILE.read_text("utf-8")


def test_a_condition_is_read_by_the_names_that_the_text_declares() -> None:
    assert condition_typed("tunnel is narrow", TEXT) == Typed(Is("tunnel", frozenset({"narrow"})), (), "series")


def test_a_mistake_is_told_with_what_to_write() -> None:
    typed = condition_typed("tunnel is narow", TEXT)
    assert typed.condition is None
    assert [(one.file, one.line, one.what, one.instead) for one in typed.mistakes] == [
        ("condition", 1, "“tunnel” has no choice “narow”", "did you mean “narrow”?")
    ]


def test_a_text_full_of_mistakes_still_names_its_options() -> None:
    broken = TEXT.replace("deposit: 25 %", "deposit: lots").replace("  kind:", "  knd:")
    assert condition_typed("series is the donor's", broken) == Typed(SeriesAsDonor(), (), "series")


def test_a_text_that_declares_nothing_knows_no_option_and_no_series() -> None:
    typed = condition_typed("a is b", "")
    assert (typed.condition, typed.series_option) == (None, "")
    assert [one.what for one in typed.mistakes] == ["there is no option “a”"]


def test_a_text_of_nothing_but_mistakes_is_given_up_and_knows_nothing() -> None:
    assert condition_typed("a is b", "  stray\n" * 500).series_option == ""


def test_a_condition_of_nothing_but_mistakes_is_given_up_with_those_found() -> None:
    typed = condition_typed(" and ".join(["a is b"] * 500), "")
    assert typed.condition is None
    assert typed.mistakes
