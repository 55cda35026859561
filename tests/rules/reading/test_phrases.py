"""How choices and reasons are said within a sentence: read where the book has it, and asked for in every language."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.reading import BookMistakes, Mistake, read_book
from tests.rules.reading.test_mistakes import SOUND

DEMO = read_book((Path(__file__).parents[3] / "demo" / "skerry.book").read_text(encoding="utf-8"), "demo/skerry.book")

HEAD = "  | choice | clause en | clause de | shell en | shell de |"


def said(*rows: str) -> tuple[Mistake, ...]:
    with pytest.raises(BookMistakes) as caught:
        read_book("\n".join((SOUND, *rows)), "a.book")
    return caught.value.mistakes


def test_a_choice_knows_how_it_is_said_within_a_sentence() -> None:
    rows = ("phrases body", HEAD, "  | coupe | it is a coupé | es ein Coupé ist | a coupé | ein Coupé |")
    roadster, coupe = read_book("\n".join((SOUND, *rows)), "a.book").option("body").choices
    assert coupe.clause == {"en": "it is a coupé", "de": "es ein Coupé ist"}
    assert coupe.shell == {"en": "a coupé", "de": "ein Coupé"}
    assert (roadster.clause, roadster.shell) == ({}, {})


def test_a_clause_alone_is_enough() -> None:
    rows = ("phrases body", HEAD, "  | coupe | it is a coupé | es ein Coupé ist | | |")
    _, coupe = read_book("\n".join((SOUND, *rows)), "a.book").option("body").choices
    assert (coupe.clause["en"], coupe.shell) == ("it is a coupé", {})


def test_one_language_alone_is_a_mistake() -> None:
    (mistake,) = said("phrases body", HEAD, "  | coupe | it is a coupé | | | |")
    assert mistake.what == "the clause of “coupe” is not there in every language"
    assert mistake.instead == "fill every cell of it, or none"


def test_an_option_or_a_choice_that_is_not_there_is_a_mistake() -> None:
    assert "there is no option “boddy”" in said("phrases boddy", HEAD)[0].what
    assert said("phrases body", HEAD, "  | cupe | | | | |")[0].what == "“body” has no choice “cupe”"


def test_phrases_stand_once_for_an_option_and_once_for_a_choice() -> None:
    assert "stand here a second time" in said("phrases body", HEAD, "phrases body", HEAD)[0].what
    twice = "  | coupe | a | b | | |"
    assert said("phrases body", HEAD, twice, twice)[0].what == "the choice “coupe” stands here twice"


def test_a_rule_says_its_reason_within_a_sentence() -> None:
    assert DEMO.rule("N6").clause["en"] == "no right-hand bulkhead for that dash was ever made"
    assert DEMO.tools[0].clause["en"] == "the press for the vented scuttle is not available"


def test_every_choice_of_the_demo_has_its_phrases_and_every_refusing_rule_its_clause() -> None:
    choices = [(o.id, c.id) for o in DEMO.options for c in o.choices if not (c.clause and c.shell)]
    assert choices == []
    assert [rule.id for rule in DEMO.rules if rule.id[0] in "ND" and not rule.clause] == []


def test_phrases_without_a_table_or_with_another_heading_say_which_columns_to_write() -> None:
    (mistake,) = said("phrases body")
    assert mistake.what == "phrases body has no table"
    assert "| choice | clause en | clause de | shell en | shell de |" in mistake.instead
