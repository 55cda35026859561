"""The price of one shell: list, adjustments, trade discount, discount for several. Sums are worked out by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from rules.condition import ALWAYS
from rules.model import Adjustment, Line
from rules.money.price import LineNet, Tariff, has_several, line_net, price_shell
from tests.rules.money.small_book import BOOK, COUPE, NO_DONOR, ROADSTER

PRIVATE = Tariff("GBP")
EURO = Tariff("EUR", {"A": Decimal(12), "B": Decimal(5)})
TRADE = Tariff("GBP", {"A": Decimal(15), "B": Decimal(5)})


def _nets(made: Mapping[str, str], tariff: Tariff, shells: int = 1) -> dict[str, int]:
    return {net.line: net.net for net in price_shell(BOOK, made, NO_DONOR, tariff, shells).lines}


def test_a_private_roadster_on_a_dolly_by_our_van() -> None:
    shell = price_shell(BOOK, {**ROADSTER, "delivery": "van"}, NO_DONOR, PRIVATE)
    assert (shell.net, shell.unpriced) == (1237500, ())
    assert [net.net for net in shell.lines] == [1185000, 24000, 28500]


def test_a_metallic_colour_multiplies_the_scope_before_trade_discount() -> None:
    shell = price_shell(BOOK, {**COUPE, "finish": "painted", "scope": "shuts", "colour": "frost"}, NO_DONOR, EURO)
    scope = next(net for net in shell.lines if net.line == "scope-shuts")
    # 5 850 × 1.12 = 6 552; less 5 % = 6 224.40
    assert scope == LineNet("scope-shuts", "B", 585000, ("metallic",), 655200, 32760, 622440)


def test_a_solid_colour_leaves_the_scope_alone() -> None:
    assert _nets({**ROADSTER, "finish": "painted", "scope": "shuts", "colour": "oat"}, PRIVATE)["scope-shuts"] == 485000


def test_paint_makes_the_filler_primer_free() -> None:
    assert _nets({**ROADSTER, "primer": "filler"}, PRIVATE)["primer-filler"] == 80000
    assert _nets({**ROADSTER, "primer": "filler", "finish": "painted"}, PRIVATE)["primer-filler"] == 0


def test_what_is_waived_is_free_also_where_the_list_has_no_price() -> None:
    painted = price_shell(BOOK, {**ROADSTER, "primer": "filler", "finish": "painted"}, NO_DONOR, EURO)
    primed = price_shell(BOOK, {**ROADSTER, "primer": "filler"}, NO_DONOR, EURO)
    assert painted.unpriced == ()
    assert (primed.unpriced, primed.net) == (("primer-filler",), None)


def test_trade_discount_makes_the_allowance_smaller_too() -> None:
    nets = _nets({**ROADSTER, "own-doors": "yes"}, TRADE)
    assert (nets["own-doors-yes"], nets["own-doors-allowance"]) == (20400, -35700)


def test_three_shells_take_three_per_cent_off_the_body_after_trade_discount() -> None:
    three = price_shell(BOOK, ROADSTER, NO_DONOR, TRADE, shells=3)
    assert three.lines[0] == LineNet("body-roadster", "A", 1185000, (), 1185000, 177750, 977032, several=30218)
    assert three.lines[1].net == 24000


def test_two_shells_do_not() -> None:
    assert _nets(ROADSTER, TRADE, shells=2)["body-roadster"] == 1007250


def test_a_discount_for_several_may_begin_with_the_first() -> None:
    terms = replace(BOOK.terms, several_from=1)
    assert (has_several(terms, 1), has_several(terms, 0)) == (True, False)
    assert not has_several(replace(terms, several_from=0), 99)


def test_what_is_not_on_the_list_is_not_priced_and_never_nought() -> None:
    by_van = price_shell(BOOK, {**ROADSTER, "delivery": "van"}, NO_DONOR, EURO)
    assert (by_van.unpriced, by_van.net) == (("delivery-van",), None)
    assert "delivery-van" not in {net.line for net in by_van.lines}


def test_a_line_speaks_only_once_its_option_is_answered() -> None:
    assert price_shell(BOOK, {"packing": "dolly"}, NO_DONOR, PRIVATE).net == 24000


def test_the_list_step_is_rounded_once_after_all_its_factors() -> None:
    thing = Line("thing", ALWAYS, "A", {}, {"GBP": 5})
    halves = tuple(Adjustment(f"half-{n}", ("thing",), ALWAYS, Decimal("0.5"), {}) for n in range(2))
    # 5 × 0.5 × 0.5 = 1.25 → 1; rounded after each it would be 2.5 → 3, 1.5 → 2
    net = line_net(thing, halves, PRIVATE)
    assert net is not None
    assert (net.adjusted, net.adjustments) == (1, ("half-0", "half-1"))


def test_an_adjustment_of_another_line_leaves_this_one_alone() -> None:
    thing = Line("thing", ALWAYS, "A", {}, {"GBP": 5})
    assert line_net(thing, BOOK.adjustments, PRIVATE) == LineNet("thing", "A", 5, (), 5, 0, 5)


@given(
    amount=st.integers(-(10**9), 10**9),
    percent=st.decimals(0, 100, places=2),
    factors=st.lists(st.decimals(0, 3, places=2), max_size=3),
    shells=st.integers(1, 6),
)
def test_discount_never_turns_a_charge_into_an_allowance(
    amount: int, percent: Decimal, factors: list[Decimal], shells: int
) -> None:
    thing = Line("thing", ALWAYS, "A", {}, {"GBP": amount})
    net = line_net(thing, [Adjustment("x", ("thing",), ALWAYS, f, {}) for f in factors], Tariff("GBP", {"A": percent}))
    assert net is not None
    assert net.net == net.adjusted - net.discount - net.several
    assert 0 <= net.net * (1 if amount >= 0 else -1) <= abs(net.adjusted)
    assert all(type(v) is int for v in (net.listed, net.adjusted, net.discount, net.net, net.several))
