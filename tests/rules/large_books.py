"""Invented rule books of any size, by seed: groups of ten options that look at their neighbours, or all at all."""

from __future__ import annotations

from itertools import product
from random import Random

from rules.condition import ALWAYS, All, Among, Is
from rules.model import Book, Category, Choice, Group, Kind, Line, Option, PriceList, Rule

WORDS = {"en": "x"}
#: What a choice's own price line is called: by its option and itself.
PAIR = {"en": "x: x"}
GBP = PriceList("GBP", "GBP", WORDS)


def grown(groups: int, seed: int = 1) -> Book:
    """Groups of ten options with sixteen rules in each and two to the next group; every choice has a price."""
    rng = Random(seed)
    options = [_option(rng, f"g{group}-{i}") for group in range(groups) for i in range(10)]
    rules: list[Rule] = []
    for group in range(groups):
        own = options[group * 10 : group * 10 + 10]
        rules += [_plain(rng, own, f"G{group}-{i}") for i in range(14)]
        rules += [_table(rng, rng.sample(own, 3), f"T{group}-{i}", 0.6) for i in range(2)]
        if group + 1 < groups:
            near = options[group * 10 + 10 : group * 10 + 20]
            rules += [_between(rng, rng.choice(own), rng.choice(near), f"N{group}-{i}") for i in range(2)]
    return _book(rng, options, rules, f"grown-{groups}")


def tangled(count: int, seed: int = 1, wide: int = 0) -> Book:
    """Rules between any two options: no order keeps a diagram small. `wide`: tables of thousands of combinations."""
    rng = Random(seed)
    options = [_option(rng, f"o{i}") for i in range(count)]
    rules = [_some_two(rng, options, f"R{i}") for i in range(count * 3 // 2)]
    rules += [_wide_table(rng, options, f"W{i}") for i in range(wide)]
    rules += [_speaks(rng, options, f"S{i}") for i in range(count // 10)]
    return _book(rng, options, rules, f"tangled-{count}")


def _book(rng: Random, options: list[Option], rules: list[Rule], name: str) -> Book:
    lines = tuple(
        Line(f"{o.id}.{c.id}", Is(o.id, frozenset((c.id,))), "A", PAIR, {"GBP": rng.randint(-100, 900)}, o.id, c.id)
        for o in options
        for c in o.choices
    )
    groups, categories = (Group("g", WORDS),), (Category("A", WORDS),)
    return Book(
        name,
        WORDS,
        ("en",),
        tuple(options),
        tuple(rules),
        lists=(GBP,),
        lines=lines,
        groups=groups,
        categories=categories,
    )


def _option(rng: Random, id_: str) -> Option:
    return Option(id_, "g", WORDS, tuple(Choice(f"c{k}", WORDS) for k in range(rng.choice((2, 3, 3, 4)))))


def _is(rng: Random, option: Option) -> Is:
    return Is(option.id, frozenset((rng.choice(option.choices).id,)))


def _plain(rng: Random, options: list[Option], id_: str) -> Rule:
    first, second, third = rng.sample(options, 3)
    when = All((_is(rng, first), _is(rng, second), _is(rng, third)))
    return Rule(id_, frozenset((Kind.NEVER,)), when, None, WORDS)


def _some_two(rng: Random, options: list[Option], id_: str) -> Rule:
    first, second = rng.sample(options, 2)
    return _between(rng, first, second, id_)


def _between(rng: Random, first: Option, second: Option, id_: str) -> Rule:
    return Rule(id_, frozenset((Kind.NEVER,)), All((_is(rng, first), _is(rng, second))), None, WORDS)


def _speaks(rng: Random, options: list[Option], id_: str) -> Rule:
    kind = rng.choice((Kind.PART, Kind.APPROVAL, Kind.CAUTION))
    first, second = rng.sample(options, 2)
    part = WORDS if kind is Kind.PART else {}
    return Rule(id_, frozenset((kind,)), All((_is(rng, first), _is(rng, second))), None, WORDS, part=part)


def _table(rng: Random, columns: list[Option], id_: str, share: float) -> Rule:
    rows = [row for row in product(*([c.id for c in o.choices] for o in columns)) if rng.random() < share]
    return Rule(id_, frozenset((Kind.NEEDS,)), ALWAYS, Among(tuple(o.id for o in columns), frozenset(rows)), WORDS)


def _wide_table(rng: Random, options: list[Option], id_: str) -> Rule:
    """Eight columns next to one another, one combination in two."""
    first = rng.randrange(len(options) - 8)
    return _table(rng, options[first : first + 8], id_, 0.5)
