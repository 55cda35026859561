"""When a rule speaks, in words of the book."""

from __future__ import annotations

import pytest

from app.web.telling.conditions import rule_condition
from rules.condition import (
    ALWAYS,
    NEVER,
    All,
    Among,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    Not,
    SeriesAsDonor,
)
from rules.model import Kind, Rule
from tests.rules.demo_book import whole
from tests.web.conftest import Desk

ROADSTER, S1 = Is("body", frozenset(("roadster",))), Is("series", frozenset(("s1",)))


def told(when: Condition, language: str = "en") -> str:
    return rule_condition(whole(), Rule("X", frozenset((Kind.NEVER,)), when, None, {}), language)


@pytest.mark.parametrize(
    ("rule", "language", "sentence"),
    [
        ("N6", "en", "Steering “Right hand”, Market “North America” and Series “S3” or “S4”"),
        ("N6", "de", "Lenkung „Rechtslenker“, Markt „Nordamerika“ und Serie „S3“ oder „S4“"),
        ("N7", "en", "Body “Coupé” and Hood fixings other than “None”"),
        ("D1", "en", "With Bumpers “Impact set” only Series “S4”"),
        ("D1", "de", "Zu Stoßfänger „Prallstoßfänger“ nur Serie „S4“"),
        ("D2", "en", "Only Bumpers and Rail ends together one of “Chrome” · “Plain” or “Impact set” · “Boxed”"),
        ("A1", "en", "Steering not as the original car had it"),
        ("C1", "en", "the series ordered is not the donor car’s"),
        ("C3", "en", "Tunnel “Narrow” or Rear window “Small”"),
    ],
)
def test_a_rule_of_the_scenario_says_when_it_speaks(rule: str, language: str, sentence: str) -> None:
    assert rule_condition(whole(), whole().rule(rule), language) == sentence


@pytest.mark.parametrize(
    ("when", "sentence"),
    [
        (All((ROADSTER, Any((S1, Not(S1))))), "Body “Roadster” and (Series “S1” or Series other than “S1”)"),
        (Not(All((ROADSTER, S1))), "not (Body “Roadster” and Series “S1”)"),
        (DonorSeries(frozenset(("s2", "s1"))), "the donor car is an S1 or S2"),
        (DonorNumber("s2", None, 6200), "the donor car is one of T2-00001 to T2-06200"),
        (DonorNumber("s2", 6201, None), "the donor car is one of T2-06201 to T2-21300"),
        (DonorGearbox(frozenset(("automatic",))), "the donor car’s gearbox: automatic"),
        (SeriesAsDonor(), "the series ordered is the donor car’s"),
        (ALWAYS, "always"),
        (NEVER, "for no shell"),
    ],
)
def test_every_sort_of_condition_has_words(when: Condition, sentence: str) -> None:
    assert told(when) == sentence


def test_a_long_table_says_how_many_combinations_it_has() -> None:
    rows = frozenset((a, b) for a in ("s1", "s2", "s3", "s4") for b in ("home", "europe"))
    assert told(Among(("series", "market"), rows)) == "Series and Market together one of 8 combinations"


def test_the_workshop_reads_the_conditions_in_its_own_language(desk: Desk) -> None:
    said = desk.signed_in("tomasz").get("/api/books/1/conditions?language=de").get_json()["rules"]
    assert said["N1"] == "Windlauf „mit Lüftungsschlitzen“"
    assert set(said) == {rule.id for rule in whole().rules}
