"""The little language of conditions: what each phrase says."""

from __future__ import annotations

import pytest

from rules.condition import (
    ALWAYS,
    All,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
)
from rules.model import Role
from rules.reading.conditions import condition_in
from rules.reading.mistakes import Ledger
from rules.reading.names import Names

NAMES = Names(
    ids={"option": {"body": 1, "series": 2, "holes": 3}, "series": {"s1": 1, "s2": 2}},
    choices={"body": ("roadster", "coupe"), "series": ("s1", "s2", "s3"), "holes": ("open", "blanked")},
    gearboxes=("manual", "automatic"),
    roles={Role.SERIES: "series"},
    numbers={"s2": (1, 21300)},
)


def said(text: str) -> Condition | None:
    ledger = Ledger("a.book")
    condition = condition_in(text, 1, NAMES, ledger)
    assert ledger.found == []
    return condition


def is_(option: str, *choices: str) -> Is:
    return Is(option, frozenset(choices))


# The phrase, and what it says.
PHRASES = [
    ("always", ALWAYS),
    ("body is coupe", is_("body", "coupe")),
    ("body is not coupe", Not(is_("body", "coupe"))),
    ("series is s1 or s2", is_("series", "s1", "s2")),
    ("series is not s1 or s2", Not(is_("series", "s1", "s2"))),  # neither of the two
    ("holes is usual", IsUsual("holes")),
    ("holes is not usual", Not(IsUsual("holes"))),
    ("series is the donor's", SeriesAsDonor()),
    ("series is not the donor’s", Not(SeriesAsDonor())),  # a curly apostrophe, as word processors set it
    ("donor series is s2", DonorSeries(frozenset(("s2",)))),
    ("donor series is not s1 or s2", Not(DonorSeries(frozenset(("s1", "s2"))))),
    ("donor gearbox is automatic", DonorGearbox(frozenset(("automatic",)))),
    ("donor number s2 to 06200", DonorNumber("s2", None, 6200)),
    ("donor number s2 from 06201", DonorNumber("s2", 6201, None)),
    ("donor number s2 from 00010 to 06200", DonorNumber("s2", 10, 6200)),
    ("body is coupe and series is s1", All((is_("body", "coupe"), is_("series", "s1")))),
    # `or` between choices belongs to the option; before a new condition it joins conditions
    ("body is coupe or series is s1 or s2", Any((is_("body", "coupe"), is_("series", "s1", "s2")))),
    ("body is coupe and series is s1 or s2", All((is_("body", "coupe"), is_("series", "s1", "s2")))),
    ("series is s1 or donor series is s2", Any((is_("series", "s1"), DonorSeries(frozenset(("s2",)))))),
    ("not (body is coupe and series is s1)", Not(All((is_("body", "coupe"), is_("series", "s1"))))),
    (
        "body is coupe and (series is s1 or holes is open)",
        All((is_("body", "coupe"), Any((is_("series", "s1"), is_("holes", "open"))))),
    ),
    ("body is coupe or (always)", Any((is_("body", "coupe"), ALWAYS))),
    ("  body   is  coupe ", is_("body", "coupe")),
]


@pytest.mark.parametrize(("text", "condition"), PHRASES)
def test_a_phrase_says_what_it_reads_like(text: str, condition: Condition) -> None:
    assert said(text) == condition


# What is wrong, and with which words the message answers.
WRONG = [
    ("", "the condition ends where an option should"),
    ("body", "“body” is followed by no “is”"),
    ("body is", "the condition ends where a choice should"),
    ("body is coupe or", "the condition ends where a choice should"),
    ("body is coupe and", "the condition ends where an option should"),
    ("body is coupe)", "“)” can't follow here"),
    ("body = coupe", "“body” is followed by no “is”"),
    ("series is the car's", "“the” is not followed by “donor's”"),
    ("donor number s2 to six", "“six” is no identity number"),
    ("donor number s2 from 07000 to 06200", "these are no identity numbers of s2"),
    ("donor", "the condition ends where series, number or gearbox should"),
    ("body is coupe and series is s1 or holes is open", "side by side without brackets"),
]


@pytest.mark.parametrize(("text", "what"), WRONG)
def test_a_phrase_that_says_nothing_is_one_mistake(text: str, what: str) -> None:
    ledger = Ledger("a.book")
    assert condition_in(text, 7, NAMES, ledger) is None
    assert [(m.line, what in m.what) for m in ledger.found] == [(7, True)], ledger.found
