"""What an alternative hands over, asked again: it can be built, and its price and its difference are those promised."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.services.answering import advising, specifying
from app.services.answering.advising import Offer
from app.services.answering.specifying import Answered, Asked
from rules.answer import Verdict
from rules.donor.usual import usual_specification
from rules.specification import Donor, Origin, Specification, Taken
from tests.app.desk import CLERK, NOW, Desk
from tests.rules.demo_book import whole

DRAWS = [(option.id, choice.id) for option in whole().options for choice in option.choices]
PLACED = {"price_list": "GBP", "delivery_country": "GB", "customer_country": "GB"}


def asked(series: str, body: str, own: list[tuple[str, str]]) -> Asked:
    """The usual of the car, all taken over, with some answers of the reader's own."""
    usual = usual_specification(whole(), {"series": series, "market": "home", "body": body}, Donor(series))
    answers = {o: Taken(c, Origin.USUAL) for o, c in usual.items()} | {o: Taken(c) for o, c in own}
    return Asked(Specification(answers), Donor(series), **PLACED)  # type: ignore[arg-type]


def with_tax(answered: Answered) -> int | None:
    """Where one case is decided."""
    totals = answered.totals
    return totals.cases[0].sum.with_tax if totals is not None and totals.decided else None


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from(("s1", "s2", "s3", "s4")),
    st.sampled_from(("roadster", "coupe")),
    st.lists(st.sampled_from(DRAWS), max_size=3),
    st.sampled_from(DRAWS),
    st.integers(1, 3),
)
def test_what_is_taken_can_be_built_and_costs_what_was_promised(
    desk: Desk, series: str, body: str, own: list[tuple[str, str]], wish: tuple[str, str], quantity: int
) -> None:
    question = replace(asked(series, body, own), quantity=quantity)
    before = specifying.answer(desk.store, CLERK, question, NOW)
    offered = advising.alternatives(desk.store, CLERK, question, wish, NOW)
    for offer in (*offered.offers, *offered.keep):
        again = specifying.answer(
            desk.store, CLERK, replace(question, specification=offer.suggestion.specification), NOW
        )
        assert again.answer.verdict is not Verdict.CANT
        assert with_tax(again) == offer.price.with_tax
        if before.answer.verdict is not Verdict.CANT:
            _is_the_difference(offer, before, again)


def _is_the_difference(offer: Offer, before: Answered, again: Answered) -> None:
    sums = with_tax(before), with_tax(again)
    promised = None if None in sums else sums[1] - sums[0]  # type: ignore[operator]
    assert offer.difference.with_tax == promised


def test_the_reader_gets_his_wish_in_every_alternative_and_keeps_all_else_in_the_rest(desk: Desk) -> None:
    wish = ("steering", "right")
    question = asked("s3", "roadster", [("market", "north-america"), ("wipers", "three"), ("steering", "left")])
    offered = advising.alternatives(desk.store, CLERK, question, wish, NOW)
    assert offered.offers
    assert {offer.suggestion.specification.choices()["steering"] for offer in offered.offers} == {"right"}
    (kept,) = offered.keep
    assert [change.option for change in kept.suggestion.changes] == ["steering"]
