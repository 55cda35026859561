"""The proof of the demo firm's book: what the scenario says of it, and faults put in on purpose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cache

from rules.condition import All, Condition, Is
from rules.model import Adjustment, Book, Kind, Option, Rule, Tool, ToolCondition
from rules.proof import Dead, Idle, Price, Proof, StandardShell, Toolless, prove
from rules.specification import Donor
from tests.rules.demo_book import NO_DONOR, STATES, prepared, whole


@cache
def proof() -> Proof:
    return prove(whole(), STATES, prepared=prepared())


def has(**answers: str) -> Condition:
    return All(tuple(Is(option.replace("_", "-"), frozenset((choice,))) for option, choice in answers.items()))


def with_rule(id_: str, when: Condition) -> Book:
    return replace(whole(), rules=(*whole().rules, Rule(id_, frozenset((Kind.NEVER,)), when, None, {})))


def proved(book: Book, states: Mapping[str, ToolCondition] = STATES) -> Proof:
    return prove(book, states, prepared=None)


def of(shells: tuple[StandardShell, ...], donor: Donor = NO_DONOR) -> list[tuple[str, ...]]:
    """Series, market and body of the shells of one car."""
    return [tuple(shell.keys.values()) for shell in shells if shell.donor == donor]


def test_the_book_is_sound_and_vented_is_its_one_dead_choice() -> None:
    assert proof().sound
    assert proof().dead == (Dead("scuttle", "vented", True, (("N1",),)),)
    assert (proof().contradiction, proof().not_lost, proof().capped) == ((), (), False)


def test_counts_are_the_scenarios() -> None:
    assert (proof().count, proof().outright, proof().variants) == (12674092032, 81572400, 50496)
    counts = {(each.option, each.choice): each.count for each in proof().counts}
    assert list(counts)[:4] == [("series", "s1"), ("series", "s2"), ("series", "s3"), ("series", "s4")]
    for option in ("series", "market", "body"):
        assert sum(count for (key, _), count in counts.items() if key == option) == 12674092032


def test_every_rule_bites_and_every_condition_holds_somewhere() -> None:
    assert (proof().idle, proof().silent, proof().idle_tools) == ((), (), ())


def test_all_of_s1_fails_by_the_scuttle_alone_and_nothing_else_fails() -> None:
    markets = ("home", "europe", "north-america", "southern-africa")
    assert of(proof().broken) == [("s1", market, body) for market in markets for body in ("roadster", "coupe")]
    assert {shell.causes for shell in proof().broken} == {("N1",)}
    assert len(of(proof().standard)) == 24


def test_the_standard_s2_coupe_stands_outright_and_with_the_small_window_once() -> None:
    home = [shell for shell in proof().standard if tuple(shell.keys.values()) == ("s2", "home", "coupe")]
    large, automatic, small, _ = home
    assert (large.donor, large.gates, large.prices[0]) == (NO_DONOR, (), Price("GBP", 1350000))
    assert automatic.donor == Donor("s2", None, "automatic")
    assert automatic.prices[0].amount == 1350000 + 9500
    assert (small.donor, small.gates) == (Donor("s2", 6200), ("P4",))
    assert (small.prices[0].amount, small.specification["rear-window"]) == (1422000, "small")


def test_what_no_list_or_not_every_list_prices_is_told() -> None:
    told = [(each.choice, each.lists, each.everywhere) for each in proof().unpriced]
    assert told == [
        ("van", ("EUR", "USD"), False),
        ("door-south-africa", ("EUR", "USD"), False),
        ("door-elsewhere", ("GBP", "EUR", "USD"), True),
    ]
    assert [each.witness and each.witness["delivery"] for each in proof().unpriced] == [choice for choice, _, _ in told]


def test_structural_choices_that_name_no_tool_are_told() -> None:
    assert Toolless("wheel-well", "shallow") in proof().toolless
    named = ("body", "steering", "series", "market")
    assert not [each for each in proof().toolless if each.option in named or each.choice == "four-link"]


def test_a_rule_that_two_others_imply_is_idle() -> None:
    found = proved(with_rule("X1", has(suspension="four-link", bumpers="impact", tunnel="narrow"))).idle
    assert [(each.rule, each.implied_by) for each in found] == [("X1", (("N2",), ("N3",), ("D1", "D15")))]
    assert found[0].witness is not None
    assert (found[0].witness["suspension"], found[0].witness["tunnel"]) == ("four-link", "narrow")


def test_a_rule_that_forbids_nothing_is_idle_and_has_no_witness() -> None:
    both = All((has(roof="none"), has(roof="folding")))
    assert proved(with_rule("X1", both)).idle == (Idle("X1", (), None),)


def test_a_lost_tool_that_nobody_declared_is_a_fault() -> None:
    found = proved(whole(), {**STATES, "four-link-tool": ToolCondition.LOST})
    assert not found.sound
    assert [(each.choice, each.declared, each.causes) for each in found.dead if each.option != "scuttle"] == [
        ("four-link", False, (("four-link-tool",),)),
        ("raised", False, (("D3b", "four-link-tool"),)),
    ]
    # the surcharge can still be waived on aluminium, on the raised bonnet no more
    assert [each.line for each in found.silent if each.kind == "adjustment"] == ["bonnet.raised"]
    silent = {(each.kind, each.id) for each in found.silent}
    assert silent == {
        ("approval", "A2"),
        ("tool", "raised-bonnet-press"),
        ("addition", "four-link-sub-assembly"),
        ("addition", "four-link-rollover"),
        ("adjustment", "no-bonnet-surcharge"),
    }


def test_a_contradiction_is_said_once_with_its_rules() -> None:
    book = with_rule("X1", has(body="coupe"))
    book = replace(book, rules=(*book.rules, Rule("X2", frozenset((Kind.NEVER,)), has(body="roadster"), None, {})))
    found = proved(book)
    assert (found.count, found.dead, found.sound) == (0, (), False)
    assert ("X1", "X2") in found.contradiction


def test_a_choice_declared_lost_that_can_be_built_is_told() -> None:
    def declare(option: Option) -> Option:
        choices = tuple(replace(choice, lost=choice.lost or choice.id == "narrow") for choice in option.choices)
        return replace(option, choices=choices)

    (found,) = proved(replace(whole(), options=tuple(declare(option) for option in whole().options))).not_lost
    assert (found.option, found.choice, found.witness["tunnel"]) == ("tunnel", "narrow", "narrow")


def test_a_price_term_that_can_never_hold_is_told_with_its_line() -> None:
    term = Adjustment("never-free", ("primer.epoxy",), has(finish="painted"), Decimal(0), {}, waives=True)
    (found,) = proved(replace(whole(), adjustments=(*whole().adjustments, term))).silent
    assert (found.kind, found.id, found.line) == ("adjustment", "never-free", "primer.epoxy")
    assert found.witness is not None
    assert (found.witness["finish"], found.witness["primer"]) == ("painted", "epoxy")


def test_a_tool_on_which_nothing_depends_is_told() -> None:
    tool = Tool("idle-press", {}, All((has(roof="none"), has(roof="folding"))), {})
    found = proved(replace(whole(), tools=(*whole().tools, tool)))
    assert found.idle_tools == ("idle-press",)
