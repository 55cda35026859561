"""A refusal told: whose answers, which rules, in which order; and whether it is a dead choice."""

from __future__ import annotations

from rules.donor.usual import usual_specification
from rules.engine.ask import prepare
from rules.explain.refusal import Against, Given, Refusal, Sort, refuse
from rules.model import ToolCondition
from rules.specification import Origin
from tests.rules.demo_book import NO_DONOR, STATES, chosen, prepared, whole

AMERICAN_S3 = {"series": "s3", "market": "north-america", "body": "roadster"}
HOME_S1 = {"series": "s1", "market": "home", "body": "roadster"}


def refused(own: dict[str, str], wish: tuple[str, str] | None = None) -> Refusal:
    usual = usual_specification(whole(), {key: own[key] for key in ("series", "market", "body")}, NO_DONOR)
    return refuse(prepared(), chosen(own, usual), wish)


def own(option: str, choice: str) -> Given:
    return Given(option, choice, Origin.CHOSEN)


def usual(option: str, choice: str) -> Given:
    return Given(option, choice, Origin.USUAL, as_had=True)


def test_a_reason_names_series_and_market_before_the_rest() -> None:
    told = refused(AMERICAN_S3 | {"steering": "right"}).reasons[0]
    assert told.sort is Sort.ANSWERS
    assert told.answers == (own("series", "s3"), own("market", "north-america"), own("steering", "right"))
    assert told.against == (Against("N6", tool=False),)


def test_reasons_over_the_readers_own_answers_come_before_those_over_taken_over_ones() -> None:
    first, second, *_ = refused(AMERICAN_S3, ("steering", "right")).reasons
    assert first.answers == (own("series", "s3"), own("market", "north-america"))
    assert (second.answers, second.against) == ((usual("wipers", "three"),), (Against("D4", tool=False),))


def test_within_a_reason_the_readers_own_answer_comes_first() -> None:
    told = refused(AMERICAN_S3 | {"steering": "right"}).reasons[1]
    assert told.answers == (own("steering", "right"), usual("wipers", "three"))


def test_what_was_taken_over_with_a_suggestion_is_not_called_as_original() -> None:
    """An S4 whose four-link brought chrome bumpers and the raised bonnet with it."""
    home = {"series": "s4", "market": "home", "body": "roadster"}
    had = usual_specification(whole(), home, NO_DONOR)
    taken = had | {"bumpers": "chrome", "rail-ends": "plain", "bonnet": "raised", "wheel-well": "deep"}
    found = refuse(prepared(), chosen(home | {"suspension": "four-link"}, taken), ("bonnet", "steel"))
    boxed = refuse(prepared(), chosen(home | {"suspension": "four-link"}, taken), ("rail-ends", "boxed"))
    assert [told.answers for told in found.reasons] == [(own("suspension", "four-link"),)]
    assert {given for told in boxed.reasons for given in told.answers if given.as_had} == set()
    assert Given("bumpers", "chrome", Origin.USUAL) in {given for told in boxed.reasons for given in told.answers}


def test_a_dead_wish_and_a_dead_answer_are_told_apart_from_what_clashes() -> None:
    wish, answer = refused(HOME_S1 | {"scuttle": "plain"}, ("scuttle", "vented")), refused(HOME_S1)
    assert (wish.dead, wish.reasons[0].sort, wish.reasons[0].answers) == (True, Sort.DEAD, ())
    assert (answer.dead, answer.reasons[0].sort) == (False, Sort.DEAD)
    assert answer.reasons[0].answers == (usual("scuttle", "vented"),)


def test_what_can_be_built_has_no_reason() -> None:
    found = refused(HOME_S1 | {"scuttle": "plain"}, ("tunnel", "wide"))
    assert (found.stands, found.dead, found.reasons) == (True, False, ())


def test_a_lost_tool_counts_as_a_tool() -> None:
    states = {**STATES, "large-window-press": ToolCondition.LOST}
    found = refuse(prepare(whole(), states, NO_DONOR), chosen({"body": "coupe"}), ("rear-window", "large"))
    assert found.reasons[0].against == (Against("large-window-press", tool=True),)
