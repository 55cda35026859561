"""Whatever happens to a text, reading it gives a book or mistakes with places: never anything else."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.reading import BookMistakes, Mistake, read_book
from rules.reading.mistakes import sentence

DEMO = (Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8").split("\n")

LINES = st.integers(0, len(DEMO) - 1)
GARBLE = st.text(st.sampled_from("ab|:()—-#\t 0,.%is or and not donor'\u00a0é\x00"), max_size=12)
CHANGES = st.one_of(
    st.tuples(st.just("delete"), LINES, st.just("")),
    st.tuples(st.just("double"), LINES, st.just("")),
    st.tuples(st.just("swap"), LINES, st.just("")),
    st.tuples(st.just("outdent"), LINES, st.just("")),
    st.tuples(st.just("cut"), LINES, st.just("")),
    st.tuples(st.just("garble"), LINES, GARBLE),
)


def changed(lines: list[str], how: str, at: int, garble: str) -> list[str]:
    at = min(at, len(lines) - 1)
    line = lines[at]
    half = len(line) // 2
    new = {
        "delete": [],
        "double": [line, line],
        "swap": [*lines[at + 1 : at + 2], line],
        "outdent": [line.strip()],
        "cut": [line[:half]],
        "garble": [line[:half] + garble + line[half:]],
    }[how]
    return [*lines[:at], *new, *lines[at + (2 if how == "swap" else 1) :]]


def mistakes_of(text: str) -> tuple[Mistake, ...]:
    try:
        read_book(text, "mutated.book")
    except BookMistakes as refused:
        return refused.mistakes or (Mistake("mutated.book", 0, sentence(""), sentence("")),)
    return ()


def read_or_refused(text: str) -> None:
    last = text.count("\n") + text.count("\r") + 1
    assert all(1 <= m.line <= last and m.what and m.instead for m in mistakes_of(text))


@settings(max_examples=60)
@given(st.lists(CHANGES, min_size=1, max_size=6))
def test_a_mutated_demo_book_reads_or_is_refused_with_places(changes: list[tuple[str, int, str]]) -> None:
    lines = DEMO
    for how, at, garble in changes:
        lines = changed(lines, how, at, garble)
    read_or_refused("\n".join(lines))


@given(st.text(max_size=400))
def test_any_text_reads_or_is_refused_with_places(text: str) -> None:
    read_or_refused(text)


HEADS = (
    *("book", "roles", "groups", "categories", "lists", "option", "line", "adjust", "rule", "tool", "usual", "series"),
    *("stage", "addition", "calendar", "closed", "tax", "terms", "extra", "caution", "delivery"),
)
FIELDS = (
    *("title en", "label en", "group", "when", "never", "needs", "days", "lines", "times", "numbers", "every year"),
    *("zone", "deposit", "papers", "text en", "load", "several", "changeover", "these exist"),
)


@given(
    st.lists(
        st.one_of(
            st.builds("{} {}".format, st.sampled_from(HEADS), GARBLE),
            st.builds("  {}: {}".format, st.sampled_from(FIELDS), GARBLE),
            st.builds("  | {} | {} |".format, GARBLE, GARBLE),
        ),
        max_size=25,
    )
)
def test_blocks_of_the_right_words_and_the_wrong_content_are_refused_with_places(lines: list[str]) -> None:
    read_or_refused("\n".join(["book x", "  languages: en", *lines]))


def test_a_table_of_twenty_thousand_combinations_reads_in_a_moment() -> None:
    many = [f"c{number}" for number in range(200)]
    option = "option {0}\n  group: g\n  label en: L\n  | choice | en |\n" + "".join(f"  | {c} | {c} |\n" for c in many)
    rows = "".join(f"  | {a} | {b} |\n" for a in many for b in many[::2])
    text = (
        "book large\n  title en: Large\n  languages: en\ngroups\n  | group | en |\n  | g | G |\n"
        + option.format("a")
        + option.format("b")
        + "rule R1\n  reason en: So.\n  these exist:\n  | a | b |\n"
        + rows
    )
    rule = read_book(text, "large.book").rule("R1")
    assert rule.needs is not None
    assert len(rule.needs.rows) == 20_000  # type: ignore[union-attr]
