"""Identity numbers as people type them. The series and their ends are those of the demo car."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rules.donor.identity import LONGEST, Beyond, Identified, Mendable, Unreadable, read_number, write_number
from rules.model import Series

SERIES = (
    Series("s1", "1961–1964", "T1", 251, 8450, 5, {}),
    Series("s2", "1965–1968", "T2", 1, 21300, 5, {}),
    Series("s3", "1969–1974", "T3", 1, 40975, 5, {}),
    Series("s4", "1975–1979", "T4", 1, 19040, 5, {}),
)


def test_the_exact_number_is_identified() -> None:
    assert read_number("T1-08390", SERIES) == Identified("T1-08390", "s1", 8390, "T1-08390")


@pytest.mark.parametrize("text", ["T1-00251", "T1-08450", "T2-00001", "T2-21300", "T4-19040"])
def test_the_first_and_the_last_number_of_a_series_belong_to_it(text: str) -> None:
    assert isinstance(read_number(text, SERIES), Identified)


def test_one_past_the_last_is_said_to_be_so_and_the_text_is_kept() -> None:
    assert read_number("T2-21301", SERIES) == Beyond("T2-21301", "s2", 21301, "T2-21301", "after", "T2-21300", 1)


def test_one_before_the_first_is_said_to_be_so() -> None:
    assert read_number("T1-00250", SERIES) == Beyond("T1-00250", "s1", 250, "T1-00250", "before", "T1-00251", 1)


@pytest.mark.parametrize(
    ("text", "mended"),
    [
        # lower case, a space for the hyphen, the leading zero left out
        ("t2 4417", ("spaces", "dash", "case", "zeros")),
        # an en dash, as word processors make of a hyphen
        ("T2\N{EN DASH}04417", ("dash",)),
        # a minus sign
        ("T2\N{MINUS SIGN}04417", ("dash",)),
        # no hyphen at all, and one in the wrong place
        ("T204417", ("dash",)),
        ("T-204417", ("dash",)),
        # the letter O for a nought, capital and small
        ("T2-O4417", ("letters",)),
        ("T2-o4417", ("letters",)),
        # capital i and small L for a one
        ("T2-044I7", ("letters",)),
        ("T2-044l7", ("letters",)),
        # a Cyrillic T
        ("\N{CYRILLIC CAPITAL LETTER TE}2-04417", ("letters",)),
        # spaces round it, inside it, a line end, and one that takes no room
        (" T2-04417", ("spaces",)),
        ("T2 - 04417", ("spaces",)),
        ("T2-04417\n", ("spaces",)),
        ("T2-\N{ZERO WIDTH SPACE}04417", ("spaces",)),
        # a control character, as a scanner may send one
        ("T2-\x0204417", ("spaces",)),
        # a leading zero missing, and one too many
        ("T2-4417", ("zeros",)),
        ("T2-004417", ("zeros",)),
        # full-width letters and digits; Arabic-Indic digits
        ("\N{FULLWIDTH LATIN CAPITAL LETTER T}\N{FULLWIDTH DIGIT TWO}-04417", ("forms",)),
        ("T2-\u0660\u0664\u0664\u0661\u0667", ("forms",)),
    ],
)
def test_a_number_read_with_good_will_is_offered_never_mended(text: str, mended: tuple[str, ...]) -> None:
    assert read_number(text, SERIES) == Mendable(text, "T2-04417", "s2", 4417, mended)


def test_a_one_may_be_mistaken_in_the_prefix_too() -> None:
    assert read_number("Tl-00300", SERIES) == Mendable("Tl-00300", "T1-00300", "s1", 300, ("letters",))


def test_what_is_offered_may_still_be_beyond_and_says_so_when_confirmed() -> None:
    offered = read_number("t2-21301", SERIES)
    assert isinstance(offered, Mendable)
    assert isinstance(read_number(offered.offer, SERIES), Beyond)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "empty"),
        (" \t\n", "empty"),
        ("-", "empty"),
        ("T5-00001", "no-series"),
        ("04417", "no-series"),
        ("T", "no-series"),
        ("it was blue", "no-series"),
        ("\ud800", "no-series"),
        ("T2", "no-digits"),
        ("T2-", "no-digits"),
        ("T2-44x17", "not-digits"),
        ("T2-04417 or T2-04418", "not-digits"),
        ("T2-213001", "too-many-digits"),
        ("T" * 400, "too-long"),
        ("T2-" + "0" * 400 + "1", "too-long"),
    ],
)
def test_what_is_no_number_says_why_and_how_numbers_begin(text: str, why: str) -> None:
    assert read_number(text, SERIES) == Unreadable(text, why, ("T1", "T2", "T3", "T4"))


def test_a_letter_that_is_two_in_capitals_is_not_taken_for_two() -> None:
    own = (Series("s1", "", "SS", 1, 99999, 5, {}),)
    assert read_number("\N{LATIN SMALL LETTER SHARP S}-00001", own) == Unreadable("ß-00001", "no-series", ("SS",))


def test_a_text_that_may_be_of_two_series_is_not_guessed_at() -> None:
    alike = (Series("s1", "", "K1", 1, 99999, 5, {}), Series("s12", "", "K12", 1, 999, 3, {}))
    assert read_number("K12345", alike) == Unreadable("K12345", "ambiguous", ("K1", "K12"))
    assert isinstance(read_number("K12-345", alike), Identified)


@given(st.sampled_from(SERIES), st.data())
def test_every_number_of_a_series_is_identified_as_written(series: Series, data: st.DataObject) -> None:
    number = data.draw(st.integers(series.first, series.last))
    text = write_number(series, number)
    assert read_number(text, SERIES) == Identified(text, series.choice, number, text)


@given(st.text(max_size=LONGEST + 5))
def test_any_text_gets_an_answer_that_keeps_it(text: str) -> None:
    assert read_number(text, SERIES).text == text


@given(st.text(alphabet="tT1234OoIl0- \N{EN DASH}", max_size=12))
def test_only_the_canonical_text_is_identified_and_an_offer_reads_as_itself(text: str) -> None:
    reading = read_number(text, SERIES)
    if isinstance(reading, Identified):
        assert reading.canonical == text
    if isinstance(reading, Mendable):
        again = read_number(reading.offer, SERIES)
        assert reading.offer != text
        assert isinstance(again, Identified | Beyond)
        assert again.number == reading.number
