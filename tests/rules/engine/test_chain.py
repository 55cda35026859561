"""A diagram cut into links says what it says whole, whatever was asked of it before."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings

from rules.engine.chain import Chain
from rules.engine.looking import look
from rules.engine.prepare import Prepared, prepare
from rules.money.price import Tariff
from tests.bench.engine import demo, walk
from tests.rules.demo_book import whole
from tests.rules.random_books import Asked
from tests.rules.strategies import questions


@settings(max_examples=60)
@given(questions())
def test_a_random_book_cut_into_links_says_what_it_says_whole(asked: Asked) -> None:
    prepared = prepare(asked.book, asked.states, asked.donor)
    _same(prepared, asked.specification.choices(), asked.tariff)


def test_the_demo_cut_into_links_says_what_it_says_whole_by_each_list_in_turn() -> None:
    for made in walk(whole(), demo(), seed=5, count=40):
        for tariff in (Tariff("GBP"), Tariff("EUR"), Tariff("GBP", {"A": Decimal(15)})):
            _same(demo(), made, tariff)


def test_where_structure_contradicts_itself_no_finish_can_be_taken() -> None:
    made = {"body": "roadster", "roof": "folding", "finish": "painted"}
    buildable, _ = demo().views(made, Tariff("GBP"))
    assert (buildable.ways, buildable.count) == (False, 0)
    assert [ways for ways, _, _ in buildable.branches["finish"]] == [False] * len(buildable.branches["finish"])
    assert any(ways for ways, _, _ in buildable.branches["body"])


def test_the_demo_is_cut_between_structure_and_finish() -> None:
    chain = Chain(demo().compiled.buildable, demo().bits)
    assert max(len(link) for link in chain.options) < len(demo().order)
    assert [option for link in chain.options for option in link] == list(demo().order)


def _same(prepared: Prepared, made: dict[str, str], tariff: Tariff) -> None:
    costs, indexes = prepared.costs(tariff), prepared.layout.indexes(made)
    (cut, _), told = prepared.views(made, tariff), look(prepared.compiled.buildable, indexes, costs[0], prepared.bits)
    assert (cut.count, cut.choices) == (told.count, told.choices)
    assert cut.price == told.price
    for option, whole_branches in told.branches.items():
        for branch, expected in zip(cut.branches[option], whole_branches, strict=True):
            assert branch[0] == expected[0]
            assert not branch[0] or branch == expected
