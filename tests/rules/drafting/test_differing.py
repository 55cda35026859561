"""Two texts line by line, against the unified format of the standard library's difflib."""

from __future__ import annotations

from difflib import unified_diff

from hypothesis import given
from hypothesis import strategies as st

from rules.drafting.differing import DiffLine, differing

LINES = st.lists(st.sampled_from("abcdefgh"), min_size=1, max_size=30)


def test_each_change_stands_between_two_lines_of_what_stayed() -> None:
    before, now = "a\nb\nc\nd\ne\nf\ng\nh\ni\nj\nk", "a\nb\nc\nD\ne\nf\ng\nh\ni\nj\nk\nl"
    assert [(one.mark, one.line) for one in differing(before, now)] == [
        (" ", "b"), (" ", "c"), ("-", "d"), ("+", "D"), (" ", "e"), (" ", "f"),
        (" ", None),
        (" ", "j"), (" ", "k"), ("+", "l"),
    ]  # fmt: skip


def test_texts_that_differ_in_their_line_ends_alone_do_not_differ() -> None:
    assert differing("a\r\nb", "\ufeffa\nb") == ()


@given(LINES, LINES)
def test_it_tells_what_the_standard_library_tells(before: list[str], now: list[str]) -> None:
    """difflib's unified format with two lines around: its heads apart, a line that is left out is its `@@`."""
    unified = list(unified_diff(before, now, n=2, lineterm=""))[3:]
    told = [DiffLine(" ", None) if line.startswith("@@") else DiffLine(line[0], line[1:]) for line in unified]
    assert differing("\n".join(before), "\n".join(now)) == tuple(told)
