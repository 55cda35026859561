"""Bad questions, stored orders, big tables, many threads, donors that make no difference."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import product
from random import Random

import pytest

from rules.answer import State, Verdict
from rules.condition import ALWAYS, All, Among, Any, Condition, DonorNumber, DonorSeries, Is, Not, SeriesAsDonor
from rules.donor.resolve import facts_key
from rules.engine.ask import ask, prepare
from rules.engine.diagram import TooLarge
from rules.engine.forest import Forest
from rules.model import Book, Choice, Kind, Option, Rule
from rules.money.price import Tariff
from rules.specification import Donor, Specification, Taken, UnknownNames
from tests.rules.demo_book import NO_DONOR, PRIVATE, STATES, asked, chosen, prepared, whole

WORDS = {"en": "x"}


def book(widths: dict[str, int], *rules: tuple[str, Condition]) -> Book:
    """Options of so many choices c0, c1 …, and what must hold."""
    options = tuple(Option(o, "g", WORDS, tuple(Choice(f"c{k}", WORDS) for k in range(n))) for o, n in widths.items())
    needs = (Rule(id_, frozenset((Kind.NEEDS,)), ALWAYS, needed, WORDS) for id_, needed in rules)
    return Book("small", WORDS, ("en",), options, tuple(needs))


def one_of(option: str, *choices: str) -> Is:
    return Is(option, frozenset(choices))


def test_every_unknown_option_and_choice_is_named_at_once() -> None:
    wish = chosen({"boody": "coupe", "body": "coop", "series": "s1", "colour": "mauve"})
    with pytest.raises(UnknownNames) as refused:
        ask(prepared(), wish, PRIVATE)
    assert refused.value.names == (("boody", None), ("body", "coop"), ("colour", "mauve"))
    assert str(refused.value) == (
        "The rule book doesn't know boody, body: coop, colour: mauve. Use the ids of its options and choices."
    )


def test_a_book_beyond_the_limit_says_what_to_do() -> None:
    with pytest.raises(TooLarge, match=r"more than 20 states under every order tried\. .* raise the limit\."):
        prepare(whole(), STATES, NO_DONOR, limit=20)


def test_a_stored_order_that_is_not_the_books_own_is_refused() -> None:
    with pytest.raises(ValueError, match="Prepare the book without it"):
        prepare(whole(), STATES, NO_DONOR, order=("body", "series"))


def test_the_order_is_found_again_and_is_no_worse_than_the_written_one() -> None:
    written = prepare(whole(), STATES, NO_DONOR, order=[option.id for option in whole().options])
    again = prepare(whole(), STATES, NO_DONOR)
    assert again.order == prepared().order
    assert prepared().compiled.buildable.nodes < written.compiled.buildable.nodes


@pytest.mark.parametrize("seed", range(3))
def test_any_order_gives_the_same_answer(seed: int) -> None:
    rng = Random(seed)
    options = [option.id for option in whole().options if option.id not in ("colour", "scope")]
    rng.shuffle(options)
    shuffled = prepare(whole(), STATES, NO_DONOR, order=[*options[:9], "scope", *options[9:], "colour"])
    for made in ({}, {"suspension": "four-link", "series": "s1"}, {"finish": "painted", "delivery": "port"}):
        assert ask(shuffled, chosen(made), PRIVATE) == asked(made)


def test_a_table_of_thousands_of_combinations_answers_and_explains_itself() -> None:
    widths = dict.fromkeys("abcde", 8)
    rows = [tuple(f"c{k}" for k in row) for row in product(range(8), repeat=5) if sum(row) % 7 == 0]
    assert len(rows) > 4_000
    table = ("T", Among(tuple("abcde"), frozenset(rows)))
    small = prepare(book({**widths, "f": 2}, table, ("R", Any((one_of("f", "c0"), one_of("a", "c3"))))), {}, NO_DONOR)
    answer = ask(small, chosen({"f": "c1", "b": "c1", "c": "c2", "d": "c1"}), Tariff("GBP"))
    # a must be c3, and 3 + 1 + 2 + 1 = 7, so e is a multiple of 7
    assert (answer.count, answer.settled["a"]) == (2, "c3")
    closed = {
        c.choice: c.causes for o in answer.options if o.option == "e" for c in o.choices if c.state is State.CLOSED
    }
    assert closed == {f"c{k}": (("T", "R"),) for k in range(1, 7)}


def test_a_table_and_a_sentence_that_say_the_same_compile_to_the_same_diagram() -> None:
    pairs = [(f"c{x}", f"c{y}") for x in range(4) for y in range(4) if x != 2 or y == 1]
    table = book({"a": 4, "b": 4}, ("T", Among(("b", "a"), frozenset((y, x) for x, y in pairs))))
    sentence = book({"a": 4, "b": 4}, ("T", Any((Not(one_of("a", "c2")), one_of("b", "c1")))))
    both = [prepare(each, {}, NO_DONOR, order=("a", "b")).compiled.buildable for each in (table, sentence)]
    assert both[0] == both[1]
    assert ask(prepare(table, {}, NO_DONOR), Specification(), Tariff("GBP")).count == 13


def test_contradictory_rules_leave_nothing_and_every_choice_says_why() -> None:
    dead = book({"a": 2, "b": 2}, ("X", one_of("a", "c0")), ("Y", one_of("a", "c1")), ("Z", one_of("b", "c0")))
    answer = ask(prepare(dead, {}, NO_DONOR), Specification(), Tariff("GBP"))
    assert (answer.verdict, answer.count, answer.causes) == (Verdict.CANT, 0, (("X", "Y"),))
    causes = {(o.option, c.choice): c.causes for o in answer.options for c in o.choices}
    assert causes == {
        ("a", "c0"): (("Y",),),
        ("a", "c1"): (("X",),),
        ("b", "c0"): (("X", "Y"),),
        ("b", "c1"): (("Z",), ("X", "Y")),
    }


def test_more_causes_than_are_listed_are_cut_off_and_said_to_be() -> None:
    clashing = [
        (f"{word}{i:02}", one_of("a", *kept)) for i in range(6) for word, kept in (("P", ["c0"]), ("Q", ["c1"]))
    ]
    answer = ask(prepare(book({"a": 2}, *clashing), {}, NO_DONOR), Specification(), Tariff("GBP"))
    assert (len(answer.causes), answer.capped) == (20, True)
    fewer = ask(prepare(book({"a": 2}, *clashing[:8]), {}, NO_DONOR), Specification(), Tariff("GBP"))
    assert (len(fewer.causes), fewer.capped) == (16, False)
    again = ask(prepare(book({"a": 2}, *clashing), {}, NO_DONOR), Specification(), Tariff("GBP"))
    assert again.causes == answer.causes


def test_rules_that_are_each_broken_are_cut_off_too() -> None:
    each = [(f"R{i:02}", one_of("a", "c1")) for i in range(22)]
    answer = ask(prepare(book({"a": 2}, *each), {}, NO_DONOR), chosen({"a": "c0"}), Tariff("GBP"))
    assert (answer.causes, answer.capped) == (tuple((f"R{i:02}",) for i in range(20)), True)


def test_a_count_beyond_what_a_float_can_hold_is_exact() -> None:
    wide = book({f"o{i}": 7 for i in range(40)}, ("R", Any((Not(one_of("o0", "c0")), one_of("o39", "c1")))))
    assert ask(prepare(wide, {}, NO_DONOR), Specification(), Tariff("GBP")).count == 6 * 7**39 + 7**38


def test_one_prepared_book_answers_eight_threads_alike() -> None:
    fresh = prepare(whole(), STATES, NO_DONOR, order=prepared().order)
    wishes = [
        {o.id: Random(seed * 40 + i).choice(o.choices).id for i, o in enumerate(whole().options) if (i + seed) % 3}
        for seed in range(40)
    ]
    expected = [asked(wish) for wish in wishes]
    with ThreadPoolExecutor(8) as threads:
        found = list(threads.map(lambda wish: ask(fresh, chosen(wish), PRIVATE), wishes * 2))
    assert found == expected * 2


def test_donors_that_make_no_difference_share_a_key() -> None:
    keys = {facts_key(whole(), Donor("s2", number)) for number in (6_201, 9_001, 21_300)}
    assert len(keys) == 1
    assert facts_key(whole(), Donor("s2", 6_200)) not in keys
    assert facts_key(whole(), Donor("s3", 9_001)) not in keys
    assert facts_key(whole(), Donor("s2", 9_001, "automatic")) not in keys


@pytest.mark.parametrize("fact", [DonorSeries(frozenset(("s1",))), DonorNumber("s1", 1, 9)])
def test_what_is_not_known_of_the_donor_never_forbids(fact: Condition) -> None:
    """Neither the fact nor its contrary: an unknown donor is allowed what either would forbid."""
    for when in (fact, Not(fact), All((one_of("a", "c0"), Not(fact)))):
        rule = Rule("R", frozenset((Kind.NEVER,)), when, None, WORDS)
        cautious = replace(book({"a": 2}), rules=(rule,))
        assert ask(prepare(cautious, {}, NO_DONOR), Specification(), Tariff("GBP")).count == 2


def test_a_condition_that_still_asks_for_the_donor_does_not_grow_and_is_named() -> None:
    with pytest.raises(TypeError, match=r"^resolve SeriesAsDonor\(\) before growing it$"):
        Forest(("a",), {"a": ("c0", "c1")}).grow(SeriesAsDonor())


def test_an_answer_given_twice_over_is_the_same_to_the_last_field() -> None:
    wish = Specification({"series": Taken("s3"), "tunnel": Taken("narrow"), "bumpers": Taken("impact")})
    fresh = prepare(whole(), STATES, NO_DONOR)
    assert ask(fresh, wish, PRIVATE) == ask(fresh, wish, PRIVATE) == ask(prepared(), wish, PRIVATE)
