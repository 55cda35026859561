"""Why an option stands as it does: the demo's cases, and on random books against the full answer and the solver."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from hypothesis import given, settings

from rules.condition import All, DonorNumber, Is, Not
from rules.donor.usual import usual_choices, usual_specification
from rules.engine.ask import ask, prepare
from rules.engine.standing import settled_standing
from rules.explain.reasons import reasons
from rules.explain.refusal import Against, Given
from rules.explain.why import DonorTold, Grounds, Original, Why, original, why
from rules.model import UsualRow
from rules.specification import Donor, Origin, Specification
from tests.rules.demo_book import NO_DONOR, chosen, prepared, whole
from tests.rules.random_books import Asked
from tests.rules.strategies import questions

FOUR_LINK = {"series": "s4", "market": "home", "body": "roadster", "suspension": "four-link", "bumpers": "chrome"}
TO_06200 = DonorNumber("s2", None, 6200)


def grounds(own: dict[str, str], option: str, donor: Donor = NO_DONOR, taken_over: bool = True) -> Grounds:
    keys = {key: own[key] for key in ("series", "market", "body")}
    usual = usual_specification(whole(), keys, donor) if taken_over else {}
    return why(prepared(donor=donor), chosen(own, usual), donor, option)


def test_the_raised_bonnet_is_there_because_of_the_four_link() -> None:
    found = grounds(FOUR_LINK, "bonnet", taken_over=False)
    assert (found.why, found.choice) == (Why.FORCED, "raised")
    assert found.answers == (Given("suspension", "four-link", Origin.CHOSEN),)
    assert found.against == (Against("D3a", tool=False),)


def test_of_several_reasons_the_smallest_is_told() -> None:
    """An S3 has plain rail ends by D1 and D2; chrome bumpers say it by D2 alone."""
    specification = chosen({"series": "s3", "bumpers": "chrome"})
    found = why(prepared(), specification, NO_DONOR, "rail-ends")
    assert found.answers == (Given("bumpers", "chrome", Origin.CHOSEN),)
    assert found.against == (Against("D2", tool=False),)


def test_the_readers_own_answer_needs_no_reason() -> None:
    assert grounds(FOUR_LINK, "bumpers") == Grounds("bumpers", "chrome", Why.CHOSEN)


def test_a_question_that_nothing_decides_is_open() -> None:
    assert grounds(FOUR_LINK, "wheel-well", taken_over=False) == Grounds("wheel-well", None, Why.OPEN)


def test_a_small_window_was_usual_on_an_s2_coupe_up_to_its_number() -> None:
    keys = (("series", "s2"), ("body", "coupe"))
    coupe = {"series": "s2", "market": "home", "body": "coupe"}
    for number, choice, holds in ((6200, "small", True), (6201, "large", False), (None, "large", None)):
        found = grounds(coupe, "rear-window", Donor("s2", number))
        assert (found.why, found.choice) == (Why.USUAL, choice)
        assert found.original == Original(keys, (DonorTold(TO_06200, holds),))


def test_a_hand_is_usual_for_its_market_also_where_no_row_speaks() -> None:
    home = {"series": "s2", "market": "home", "body": "coupe"}
    assert grounds(home, "steering").original == Original((("market", "home"),), ())
    assert grounds({**home, "market": "europe"}, "steering").original == Original((("market", "europe"),), ())


def test_what_every_original_car_had_has_no_keys() -> None:
    assert grounds({"series": "s2", "market": "home", "body": "coupe"}, "sealer").original == Original((), ())


def test_a_value_taken_over_that_was_not_usual_there_counts_as_chosen() -> None:
    specification = chosen({"series": "s2", "market": "home", "body": "coupe"}, {"sealer": "full"})
    assert why(prepared(), specification, NO_DONOR, "sealer") == Grounds("sealer", "full", Why.CHOSEN)


def test_a_usual_detail_that_nothing_else_can_take_the_place_of_says_both() -> None:
    keys = {"series": "s3", "market": "home", "body": "roadster"}
    found = why(prepared(), chosen(keys), NO_DONOR, "wipers")
    assert (found.choice, found.why) == ("two", Why.USUAL)
    assert found.original == Original((("market", "home"),), ())
    assert (found.answers, found.against) == ((Given("market", "home", Origin.CHOSEN),), (Against("D4", tool=False),))


def test_a_roadsters_window_was_never_a_matter_of_its_number() -> None:
    keys = {"series": "s2", "market": "home", "body": "roadster"}
    assert original(whole(), "rear-window", keys, Donor("s2", 7000)) == Original((("body", "roadster"),), ())


def test_a_row_that_speaks_of_all_cars_but_some_asks_for_their_number_too() -> None:
    keys, s2 = {"series": "s2", "market": "home", "body": "coupe"}, Is("series", frozenset({"s2"}))
    row = UsualRow(All((s2, Not(TO_06200))), {"sealer": "full"})
    book = replace(whole(), usual=(*whole().usual, row))
    assert original(book, "sealer", keys, Donor("s2", 7000)).donor == (DonorTold(TO_06200, False),)
    assert original(book, "sealer", keys, Donor("s2", 6000)).donor == (DonorTold(TO_06200, True),)
    assert original(book, "sealer", {**keys, "series": "s3"}, NO_DONOR).donor == ()


@settings(max_examples=60)
@given(questions())
def test_it_stands_as_in_the_full_answer_and_what_leaves_it_alone_is_a_smallest_reason(asked: Asked) -> None:
    ready = prepare(asked.book, asked.states, asked.donor)
    for option in ask(ready, asked.specification, asked.tariff).options:
        found = why(ready, asked.specification, asked.donor, option.option)
        taken = asked.specification.answers.get(option.option)
        stands = settled_standing(option, taken)
        assert found.why is Why.OPEN if stands is None else found.why.value == stands.value
        if found.choice is not None and (found.answers or found.against):
            _is_smallest(ready, found, [c.choice for c in option.choices if c.choice != found.choice])


def _is_smallest(ready, found: Grounds, others: list[str]) -> None:  # type: ignore[no-untyped-def]
    """These answers close every other choice, and no smaller set of them does."""
    answers = [(each.option, each.choice) for each in found.answers]
    for size in range(len(answers) + 1):
        for some in combinations(answers, size):
            closed = all(reasons(ready, dict(some), (found.option, choice))[0] for choice in others)
            assert closed == (size == len(answers))


@settings(max_examples=60)
@given(questions())
def test_the_keys_told_make_a_choice_usual_whatever_the_others_are(asked: Asked) -> None:
    ready = prepare(asked.book, asked.states, asked.donor)
    taken = Specification({o: type(t)(t.choice, Origin.USUAL) for o, t in asked.specification.answers.items()})
    for option in taken.answers:
        original = why(ready, taken, asked.donor, option).original
        if original is not None:
            choices = usual_choices(asked.book, option, dict(original.keys), asked.donor)
            assert choices == {taken.answers[option].choice}
