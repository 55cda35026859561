"""Random rule books, small enough to list every specification: all kinds of rule, tables, tools, usual rows, donors.

Everything is drawn from one `random.Random`, so a seed names a book, and hypothesis can draw (and shrink) one as well.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from itertools import product
from math import prod
from random import Random

from rules.condition import (
    ALWAYS,
    NEVER,
    All,
    Among,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
)
from rules.model import Adjustment, Book, Choice, Kind, Line, Option, Role, Rule, Tool, ToolCondition, UsualRow
from rules.money.price import Tariff
from rules.specification import Donor, Origin, Specification, Taken

WORDS = {"en": "x"}
GEARBOXES = ("manual", "automatic")
LARGEST = 300


@dataclass(frozen=True)
class Asked:
    """A whole question put to the engine."""

    book: Book
    states: dict[str, ToolCondition]
    donor: Donor
    specification: Specification
    tariff: Tariff


def make_question(rng: Random) -> Asked:
    book = make_book(rng)
    states = {tool.id: rng.choice(tuple(ToolCondition)) for tool in book.tools if rng.random() < 0.9}
    return Asked(book, states, make_donor(rng, book), make_specification(rng, book), make_tariff(rng))


def make_book(rng: Random) -> Book:
    options = _options(rng)
    roles = (
        dict(zip((Role.SERIES, Role.MARKET, Role.BODY), (o.id for o in options), strict=False)) if _coin(rng) else {}
    )
    rules = tuple(_rule(rng, options, roles, f"R{i}") for i in range(rng.randrange(9)))
    lines = tuple(_line(rng, options, roles, f"L{i}") for i in range(rng.randrange(7)))
    return Book(
        "random",
        WORDS,
        ("en",),
        options,
        rules,
        lines=lines,
        adjustments=tuple(_adjustment(rng, options, roles, lines, f"X{i}") for i in range(rng.randrange(4))),
        tools=tuple(_tool(rng, options, roles, rules, f"T{i}") for i in range(rng.randrange(4))),
        roles=roles,
        usual=tuple(_usual_row(rng, options, roles) for _ in range(rng.randrange(4))),
        gearboxes=GEARBOXES,
    )


def make_donor(rng: Random, book: Book) -> Donor:
    series = book.roles.get(Role.SERIES)
    known = [choice.id for choice in book.option(series).choices] if series else ["c0", "c1"]
    return Donor(rng.choice((None, *known)), rng.choice((None, rng.randrange(10))), rng.choice((None, *GEARBOXES)))


def make_specification(rng: Random, book: Book) -> Specification:
    share = rng.choice((0.0, 0.3, 0.6, 1.0))
    answered = (option for option in book.options if rng.random() < share)
    return Specification({o.id: Taken(rng.choice(o.choices).id, rng.choice(tuple(Origin))) for o in answered})


def make_tariff(rng: Random) -> Tariff:
    return Tariff(rng.choice(("GBP", "EUR")), {"A": Decimal(rng.choice((0, 15)))})


def _coin(rng: Random) -> bool:
    return rng.random() < 0.5


def _options(rng: Random) -> tuple[Option, ...]:
    widths = [rng.choice((1, 2, 2, 2, 3, 3, 3, 4)) for _ in range(rng.randint(1, 6))]
    while prod(widths) > LARGEST:
        widths.pop()
    return tuple(
        Option(f"o{i}", "g", WORDS, tuple(Choice(f"c{k}", WORDS) for k in range(width)), structural=_coin(rng))
        for i, width in enumerate(widths)
    )


def _condition(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], depth: int = 2) -> Condition:
    if depth and rng.random() < 0.45:
        return _joined(rng, options, roles, depth)
    draws = [_is] * 8 + [_among] * 3 + [_donor_atom] + [_fixed] + ([_is_usual, _as_donor] if roles else [])
    return rng.choice(draws)(rng, options)


def _is_usual(rng: Random, options: tuple[Option, ...]) -> Condition:
    return IsUsual(rng.choice(options).id)


def _as_donor(rng: Random, options: tuple[Option, ...]) -> Condition:
    return SeriesAsDonor()


def _joined(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], depth: int) -> Condition:
    parts = tuple(_condition(rng, options, roles, depth - 1) for _ in range(rng.randint(1, 3)))
    return rng.choice((Not(parts[0]), All(parts), Any(parts)))


def _is(rng: Random, options: tuple[Option, ...]) -> Condition:
    option = rng.choice(options)
    chosen = rng.sample(option.choices, rng.randint(1, max(1, len(option.choices) - 1)))
    return Is(option.id, frozenset(choice.id for choice in chosen))


def _among(rng: Random, options: tuple[Option, ...]) -> Condition:
    columns = rng.sample(options, rng.randint(1, min(3, len(options))))
    rows = list(product(*([choice.id for choice in option.choices] for option in columns)))
    return Among(tuple(o.id for o in columns), frozenset(rng.sample(rows, rng.randint(0, len(rows)))))


def _donor_atom(rng: Random, options: tuple[Option, ...]) -> Condition:
    low, high = rng.choice((None, rng.randrange(10))), rng.choice((None, rng.randrange(10)))
    return rng.choice(
        (
            DonorSeries(frozenset((f"c{rng.randrange(3)}",))),
            DonorGearbox(frozenset((rng.choice(GEARBOXES),))),
            DonorNumber(f"c{rng.randrange(3)}", low, high),
        )
    )


def _fixed(rng: Random, options: tuple[Option, ...]) -> Condition:
    return rng.choice((ALWAYS, NEVER))


def _rule(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], id_: str) -> Rule:
    kinds = frozenset(rng.sample(tuple(Kind), 2)) if rng.random() < 0.3 else frozenset((rng.choice(_OFTEN),))
    when, needs = _pair(rng, options, roles)
    if Kind.NEEDS not in kinds:
        return Rule(id_, kinds, rng.choice((when, All((when, needs)))), None, WORDS)
    return Rule(id_, kinds, ALWAYS if rng.random() < 0.2 else when, needs, WORDS)


def _pair(rng: Random, options: tuple[Option, ...], roles: dict[Role, str]) -> tuple[Condition, Condition]:
    """Two plain conditions as often as not: rules that forbid little make the longer causes."""
    if _coin(rng):
        return _is(rng, options), _is(rng, options)
    return _condition(rng, options, roles), _condition(rng, options, roles)


#: Hard rules more often than the others.
_OFTEN = (Kind.NEVER, Kind.NEEDS, *Kind)


def _line(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], id_: str) -> Line:
    lists = {"GBP": rng.randint(-500, 1500), "EUR": rng.randint(-500, 1500)}
    kept = {list_: amount for list_, amount in lists.items() if rng.random() < 0.8}
    return Line(id_, _condition(rng, options, roles, depth=1), rng.choice("AB"), WORDS, kept)


def _adjustment(
    rng: Random, options: tuple[Option, ...], roles: dict[Role, str], lines: tuple[Line, ...], id_: str
) -> Adjustment:
    named = tuple(line.id for line in lines if _coin(rng))
    factor = Decimal(rng.choice(("0", "0.5", "1.12")))
    return Adjustment(id_, named, _condition(rng, options, roles, depth=1), factor, WORDS, waives=factor == 0)


def _tool(rng: Random, options: tuple[Option, ...], roles: dict[Role, str], rules: tuple[Rule, ...], id_: str) -> Tool:
    voice = rng.choice(rules).id if rules else None
    stands_in, speaks_as = rng.choice(((None, None), (None, None), (voice, None), (None, voice)))
    return Tool(id_, WORDS, _condition(rng, options, roles, depth=1), WORDS, stands_in, speaks_as)


def _usual_row(rng: Random, options: tuple[Option, ...], roles: dict[Role, str]) -> UsualRow:
    keys = tuple(option for option in options if option.id in roles.values())
    told = {o.id: rng.choice(o.choices).id for o in options if o not in keys and _coin(rng)}
    atoms = [_is(rng, keys) if keys and _coin(rng) else _donor_atom(rng, options) for _ in range(rng.randint(1, 2))]
    return UsualRow(rng.choice((All, Any))(tuple(rng.choice((atom, atom, Not(atom))) for atom in atoms)), told)
