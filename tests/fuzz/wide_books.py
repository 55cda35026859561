"""Random rule books too wide to list all their shells. Each rule names few options: a solver can still spell it out."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from rules.condition import All
from rules.model import Book, Choice, Kind, Option, Role, Rule, Tool
from tests.rules import random_books
from tests.rules.random_books import GEARBOXES, WORDS

#: Options that one rule names at most, the keys of what is usual apart.
REACH = 3


def make_wide_book(rng: Random) -> Book:
    """7 to 13 options, a rule or two for each; not every option is near every other, so that groups come apart."""
    widths = [rng.choice((2, 2, 3, 3, 4)) for _ in range(rng.randint(7, 13))]
    options = tuple(
        Option(f"o{i}", "g", WORDS, tuple(Choice(f"c{k}", WORDS) for k in range(width)), structural=rng.random() < 0.5)
        for i, width in enumerate(widths)
    )
    roles = {Role.SERIES: "o0", Role.MARKET: "o1", Role.BODY: "o2"} if rng.random() < 0.5 else {}
    rules = tuple(_rule(rng, options, roles, f"R{i}") for i in range(rng.randint(len(options) // 2, len(options) * 2)))
    lines = tuple(random_books._line(rng, _near(rng, options, 2), {}, f"L{i}") for i in range(rng.randrange(10)))
    return Book(
        "wide",
        WORDS,
        ("en",),
        options,
        rules,
        lines=lines,
        adjustments=tuple(
            replace(
                random_books._adjustment(rng, _near(rng, options, 2), {}, lines, f"X{i}"), lines=(rng.choice(lines).id,)
            )
            for i in range(rng.randrange(3) if lines else 0)
        ),
        tools=tuple(_tool(rng, options, rules, f"T{i}") for i in range(rng.randrange(4))),
        roles=roles,
        usual=tuple(random_books._usual_row(rng, options, roles) for _ in range(rng.randrange(4))),
        gearboxes=GEARBOXES,
    )


def _near(rng: Random, options: tuple[Option, ...], most: int) -> tuple[Option, ...]:
    first = rng.randrange(len(options))
    window = options[max(0, first - 2) : first + 3]
    return tuple(rng.sample(window, min(most, len(window))))


def _rule(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], id_: str) -> Rule:
    """Most forbid little: two plain conditions."""
    near = _near(rng, options, REACH)
    if rng.random() < 0.6:
        when, needs = random_books._is(rng, near), random_books._is(rng, near)
        never = rng.random() < 0.5
        kinds = frozenset((Kind.NEVER if never else Kind.NEEDS,))
        return Rule(id_, kinds, All((when, needs)) if never else when, None if never else needs, WORDS)
    return random_books._rule(rng, near, roles, id_)


def _tool(rng: Random, options: tuple[Option, ...], rules: tuple[Rule, ...], id_: str) -> Tool:
    return random_books._tool(rng, _near(rng, options, REACH), {}, rules, id_)
