"""The page about the rule book's text: every example on it reads, and every mistake on it is answered as it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from rules.model import PAPERS, Kind, Role
from rules.reading import BookMistakes, read_book
from rules.reading.assembly import KINDS

PAGE = (Path(__file__).parents[2] / "docs" / "rule-book.md").read_text(encoding="utf-8")


def examples(mark: str) -> list[str]:
    return re.findall(rf"^```{mark}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


BOOK = "\n".join(examples("book"))


def test_the_examples_one_after_another_make_a_book() -> None:
    book = read_book(BOOK, "docs/rule-book.md")
    assert book.id == "little-skerry"
    assert [rule.id for rule in book.rules] == ["N1", "D1", "D2", "D4", "D3", "P1", "P4", "A1", "A2", "A3", "C1"]
    assert {kind for rule in book.rules for kind in rule.kinds} == set(Kind)


def test_there_is_an_example_of_every_kind_of_block() -> None:
    assert {line.split()[0] for line in BOOK.split("\n") if line and line[0] not in " #"} == set(KINDS)


def test_every_role_and_every_paper_is_named_on_the_page() -> None:
    assert [each for each in (*(role.value for role in Role), *PAPERS) if f"`{each}`" not in PAGE] == []


@pytest.mark.parametrize("example", examples("mistake"))
def test_a_mistake_is_answered_as_the_page_says(example: str) -> None:
    text = "\n".join(line for line in example.split("\n") if not line.startswith("=>"))
    wanted = [line.removeprefix("=> ") for line in example.split("\n") if line.startswith("=>")]
    with pytest.raises(BookMistakes) as caught:
        read_book(f"{BOOK}\n{text}", "docs/rule-book.md")
    assert [said for m in caught.value.mistakes for said in (m.what, m.instead)] == wanted


def test_the_limits_on_the_page_are_those_of_the_reader() -> None:
    from rules.reading.blocks import LONGEST_LINE, MOST_CHARACTERS
    from rules.reading.conditions import DEEPEST
    from rules.reading.mistakes import MOST_MISTAKES

    characters, longest = (f"{limit:_}".replace("_", " ") for limit in (MOST_CHARACTERS, LONGEST_LINE))
    assert f"A text may have {characters} characters, a line {longest}, brackets may stand {DEEPEST} deep;" in PAGE
    assert f"after {MOST_MISTAKES} mistakes reading stops" in PAGE
