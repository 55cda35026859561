"""The small diagram drawn in docs/engine.md is the one that is compiled."""

from __future__ import annotations

from dataclasses import replace

from rules.engine.ask import ask, prepare
from rules.model import Book
from rules.money.price import Tariff
from rules.specification import Donor, Specification
from tests.rules.demo_book import structure


def three_options() -> Book:
    book = structure()
    kept = ("body", "roof", "rear-window")
    return replace(
        book,
        options=tuple(book.option(option) for option in kept),
        rules=tuple(book.rule(rule) for rule in ("N4", "N8", "N9", "D17")),
        lines=tuple(line for line in book.lines if line.option in kept),
        adjustments=(),
        tools=(),
        usual=(),
        roles={},
    )


def test_the_drawn_diagram_has_four_ways_through_one_two_and_three_nodes() -> None:
    prepared = prepare(three_options(), {}, Donor(), order=("body", "roof", "rear-window"))
    layers = prepared.compiled.buildable.layers
    assert [layer.size for layer in layers] == [1, 2, 3]
    assert ask(prepared, Specification(), Tariff("GBP")).count == 4


def test_prices_stand_on_the_edges_where_they_are_drawn() -> None:
    diagram = prepare(three_options(), {}, Donor(), order=("body", "roof", "rear-window")).compiled.buildable
    said = [
        (layer.option, node, child, [line for line, _ in diagram.emissions[emission]])
        for layer in diagram.layers
        for edges in layer.edges
        for node, child, emission in edges
        if diagram.emissions[emission]
    ]
    lines = {(line.option, line.choice): line.id for line in three_options().lines}
    assert said == [
        ("body", 0, 0, [lines["body", "roadster"]]),
        ("body", 0, 1, [lines["body", "coupe"]]),
        ("roof", 1, 2, [lines["roof", "folding"]]),
        ("rear-window", 1, 0, [lines["rear-window", "small"]]),
    ]
