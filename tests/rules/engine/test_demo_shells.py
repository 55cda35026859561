"""The demo book: the counts that its scenario states, and every choice against a plain list of the structures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from random import Random

import pytest
from pysat.solvers import Solver

from rules.answer import PriceFrom, State, Verdict
from rules.condition import Condition, options_of
from rules.donor.resolve import resolve
from rules.donor.usual import usual_specification
from rules.engine.ask import ask, prepare
from rules.model import Book, Kind, Role, Rule, ToolCondition
from rules.specification import Donor
from tests.rules.by_sat import BySat
from tests.rules.demo_book import NO_DONOR, PRIVATE, STATES, asked, chosen, prepared, structure, whole, without
from tests.rules.listed import Listed

HARD = frozenset((Kind.NEVER, Kind.NEEDS))


@cache
def buildable_structures() -> list[dict[str, str]]:
    """All of them, by backtracking: options in written order, each rule checked as soon as its options are answered."""
    return list(_grown(structure(), _reader(structure()), {}, 0))


def _reader(book: Book) -> Listed:
    return Listed(book, STATES, NO_DONOR, PRIVATE)


def _grown(book: Book, reader: Listed, made: dict[str, str], at: int) -> Iterator[dict[str, str]]:
    if at == len(book.options):
        yield dict(made)
        return
    for choice in book.options[at].choices:
        made[book.options[at].id] = choice.id
        if not any(reader.says(rule.when, made) and _unmet(reader, rule.needs, made) for rule in _ready()[at]):
            yield from _grown(book, reader, made, at + 1)
        del made[book.options[at].id]


def _unmet(reader: Listed, needs: Condition | None, made: dict[str, str]) -> bool:
    return needs is None or not reader.says(needs, made)


@cache
def _ready() -> list[list[Rule]]:
    """For each option the hard rules whose last option it is."""
    book, places = structure(), {option.id: i for i, option in enumerate(structure().options)}
    ready: list[list[Rule]] = [[] for _ in book.options]
    for rule in book.rules:
        if rule.kinds & HARD:
            conditions = [resolve(c, book, NO_DONOR) for c in (rule.when, rule.needs) if c is not None]
            ready[max(places[o] for c in conditions for o in options_of(c))].append(rule)
    return ready


def test_the_structure_has_the_counts_that_the_scenario_states() -> None:
    answer = asked(of_structure=True)
    assert (answer.count, answer.outright) == (50_496, 3_900)
    assert len(structure().options) == 21
    assert sum(bool(rule.kinds & HARD) for rule in structure().rules) == 25


def test_the_whole_book_has_the_counts_that_the_scenario_states() -> None:
    answer = asked()
    assert (answer.count, answer.outright) == (12_674_092_032, 81_572_400)


def test_every_choice_counts_what_a_plain_list_of_the_structures_counts() -> None:
    listed = Counter(answer for made in buildable_structures() for answer in made.items())
    gates = _reader(structure())
    outright = Counter(answer for made in buildable_structures() if not gates.is_gated(made) for answer in made.items())
    assert len(buildable_structures()) == 50_496
    for option in structure().options:
        for choice in option.choices:
            answer = asked({option.id: choice.id}, of_structure=True)
            pair = (option.id, choice.id)
            assert (pair, answer.count, answer.outright) == (pair, listed[pair], outright[pair])


@pytest.mark.parametrize("seed", range(4))
def test_on_a_walk_exactly_the_choices_that_some_listed_structure_has_are_open(seed: int) -> None:
    rng, left = Random(seed), buildable_structures()
    made: dict[str, str] = {}
    for option in rng.sample(structure().options, len(structure().options)):
        answer = asked(made, of_structure=True)
        assert answer.count == len(left)
        open_ = {(o.option, c.choice) for o in answer.options for c in o.choices if c.state is not State.CLOSED}
        free = {(o, c) for full in left for o, c in full.items()}
        assert {pair for pair in open_ if pair[0] not in made} == {pair for pair in free if pair[0] not in made}
        made[option.id] = rng.choice(sorted(c for o, c in free if o == option.id))
        left = [full for full in left if full[option.id] == made[option.id]]
    assert asked(made, of_structure=True).complete


def test_the_vented_scuttle_is_the_one_dead_choice() -> None:
    closed = [(o.option, c.choice, c.causes) for o in asked().options for c in o.choices if c.state is State.CLOSED]
    assert closed == [("scuttle", "vented", (("N1",),))]


@pytest.mark.parametrize("rule", [rule for rule in structure().rules if rule.kinds & HARD], ids=lambda rule: rule.id)
def test_removing_any_single_structural_rule_raises_the_count(rule: Rule) -> None:
    order = prepared(of_structure=True).order
    loosened = prepare(without(structure(), rule), STATES, NO_DONOR, order=order)
    assert (ask(loosened, chosen({}), PRIVATE).count or 0) > 50_496


@pytest.mark.parametrize(
    ("option", "choice", "count"),
    [
        ("suspension", "four-link", 13_632),
        ("roof", "folding", 11_856),
        ("bumpers", "impact", 5_760),
        ("tunnel", "narrow", 3_840),
        ("rear-window", "small", 3_072),
    ],
)
def test_buildable_structures_that_use_a_choice(option: str, choice: str, count: int) -> None:
    assert asked({option: choice}, of_structure=True).count == count


def test_the_usual_s2_to_s4_can_be_built_and_every_usual_s1_fails_by_the_lost_scuttle_press_alone() -> None:
    for keys in _key_rows(whole()):
        donor = Donor(keys["series"], 6_201 if keys["series"] == "s2" else None)
        usual = usual_specification(whole(), keys, donor)
        answer = asked(usual, donor=donor)
        if keys["series"] == "s1":
            assert (answer.verdicts, answer.causes) == ((Verdict.CANT,), (("N1",),))
        else:
            assert (answer.verdicts, answer.complete, answer.count) == ((Verdict.AS_HAD,), True, 1)


def _key_rows(book: Book) -> Iterator[dict[str, str]]:
    options = [book.option(book.roles[role]) for role in (Role.SERIES, Role.MARKET, Role.BODY)]
    for series in options[0].choices:
        for market in options[1].choices:
            for body in options[2].choices:
                yield {options[0].id: series.id, options[1].id: market.id, options[2].id: body.id}


def test_an_early_s2_coupe_can_be_built_as_it_was_once_its_window_ring_has_passed() -> None:
    donor = Donor("s2", 5_900)
    usual = usual_specification(whole(), {"series": "s2", "market": "home", "body": "coupe"}, donor)
    assert usual["rear-window"] == "small"
    answer = asked(usual, donor=donor)
    assert answer.verdicts == (Verdict.ONCE, Verdict.AS_HAD)
    assert answer.depends.parts == ("P4",)
    assert answer.price_from == PriceFrom(14_220_00, False)
    (window,) = (o for o in answer.options if o.option == "rear-window")
    large = window.choices[2]
    # case 11: the large window is 720.00 less before tax, and needs no part
    assert (large.choice, large.state, large.usual, large.difference) == ("large", State.OPEN, False, -720_00)
    assert large.depends.parts == ()


def test_the_cheapest_shell_of_all_is_known_and_needs_neither_part_nor_approval() -> None:
    assert asked().price_from == PriceFrom(11_980_00, True)


def test_what_needs_a_part_or_an_approval_adds_its_own_price_and_takes_off_no_other_part_s() -> None:
    """Nothing answered yet: the list's own figures, though the cheapest shell with any part has three parts sent."""
    told = {(o.option, c.choice): c.difference for o in asked().options for c in o.choices}
    wanted = {
        ("tunnel", "narrow"): 640_00,
        ("belts", "front"): 180_00,
        ("own-doors", "yes"): -180_00,
        ("trial-fit", "customers-trim"): 520_00,
    }
    assert {at: told[at] for at in wanted} == wanted


def test_boxed_rail_ends_and_a_hooded_dash_break_no_single_rule_but_three_together() -> None:
    answer = asked({"rail-ends": "boxed", "dash": "hooded"})
    assert (answer.verdicts, answer.causes, answer.count) == ((Verdict.CANT,), (("D1", "D2", "D5"),), 0)


def test_two_causes_are_both_reported_and_no_part_is_asked_for() -> None:
    answer = asked({"series": "s1", "tunnel": "narrow", "suspension": "four-link", "scuttle": "vented"})
    assert answer.causes == (("N1",), ("N3",))
    assert (answer.depends.parts, answer.settled.get("doors")) == ((), None)


def test_four_link_and_impact_with_the_usual_bonnet_have_both_reasons() -> None:
    answer = asked({"suspension": "four-link", "bumpers": "impact", "bonnet": "steel"})
    assert answer.causes == (("N2",), ("D3a",))


def test_a_missing_price_leaves_that_completion_out_and_is_never_nothing() -> None:
    (delivery,) = (o for o in asked().options if o.option == "delivery")
    elsewhere = delivery.choices[-1]
    assert (elsewhere.choice, elsewhere.state) == ("door-elsewhere", State.OPEN)
    assert (elsewhere.price_from, elsewhere.difference) == (PriceFrom(None, True), None)
    assert asked({"delivery": "door-elsewhere"}).price_from == PriceFrom(None, True)


def test_metallic_is_dearer_by_the_scope_and_a_waived_primer_costs_nothing() -> None:
    painted = {"finish": "painted", "scope": "outside", "colour": "chalk"}
    answer = asked(painted)
    (colour,) = (o for o in answer.options if o.option == "colour")
    assert {c.choice: c.difference for c in colour.choices if c.choice in ("moss", "frost", "reference")} == {
        "moss": 0,
        "frost": 474_00,
        "reference": 275_00,
    }
    # 11 850 + 3 950 + 130: the primer that paint needs is free
    assert (answer.settled["primer"], answer.price_from.amount) == ("epoxy-and-filler", 15_930_00)


def test_a_tool_that_is_down_is_named_and_one_that_is_lost_forbids_under_its_own_name() -> None:
    tool = "four-link-tool"
    wish = chosen({"suspension": "four-link"})
    down = ask(prepare(whole(), {**STATES, tool: _state("down")}, NO_DONOR), wish, PRIVATE)
    lost = ask(prepare(whole(), {**STATES, tool: _state("lost")}, NO_DONOR), wish, PRIVATE)
    assert (down.depends.tools, down.verdict is Verdict.CANT) == ((tool,), False)
    assert (lost.verdict, lost.causes) == (Verdict.CANT, ((tool,),))


def _state(word: str) -> ToolCondition:
    return ToolCondition(word)


@pytest.mark.parametrize("seed", range(3))
def test_a_walk_through_the_whole_book_agrees_with_a_sat_solver(seed: int) -> None:
    rng, sat = Random(seed), BySat(whole(), STATES, NO_DONOR)
    made: dict[str, str] = {}
    outright = BySat(whole(), STATES, NO_DONOR, outright=True)
    with Solver(bootstrap_with=sat.clauses) as solver:
        for i, option in enumerate(rng.sample(whole().options, len(whole().options))):
            answer = asked(made)
            for each in answer.options:
                open_ = {c.choice for c in each.choices if c.state is not State.CLOSED}
                assert open_ == {c.choice for c in each.choices if sat.can(solver, {**made, each.option: c.choice})}
            if i % 8 == 0:
                cheapest = (outright if answer.price_from.outright else sat).cheapest(made, PRIVATE)
                assert answer.price_from.amount == cheapest
            (here,) = (o for o in answer.options if o.option == option.id)
            made[option.id] = rng.choice([c.choice for c in here.choices if c.state is not State.CLOSED])


def test_tool_states_and_order_leave_the_scenario_counts_alone() -> None:
    written = prepare(whole(), STATES, NO_DONOR, order=[option.id for option in whole().options])
    assert ask(written, chosen({}), PRIVATE).count == 12_674_092_032
    same = replace(whole(), title={})
    assert prepare(same, STATES, NO_DONOR, order=prepared().order).order == prepared().order
