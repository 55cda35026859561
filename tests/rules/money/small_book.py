"""A book with a few of the demo firm's lines: enough to see every step of a price, small enough to sum by hand."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from rules.condition import All, Condition, Is
from rules.model import (
    Adjustment,
    Book,
    Choice,
    Extra,
    Goes,
    Line,
    Option,
    Tax,
    TaxRate,
    Terms,
)
from rules.money.tax import TaxCase, TaxRefusal, tax_cases
from rules.specification import Donor

TODAY = date(2026, 11, 25)
NO_DONOR = Donor()


def when(option: str, *choices: str) -> Is:
    return Is(option, frozenset(choices))


def option(option_id: str, *choices: str) -> Option:
    return Option(option_id, "group", {}, tuple(Choice(choice, {}) for choice in choices))


def line(
    option_id: str, choice: str, category: str, gbp: int | None, eur: int | None = None, *, base: bool = False
) -> Line:
    amounts = {name: amount for name, amount in (("GBP", gbp), ("EUR", eur)) if amount is not None}
    condition: Condition = when(option_id, choice)
    return Line(f"{option_id}-{choice}", condition, category, {}, amounts, option_id, choice, base)


BOOK = Book(
    id="small",
    title={},
    languages=("en",),
    options=(
        option("body", "roadster", "coupe"),
        option("finish", "primed", "painted"),
        option("primer", "standard", "filler"),
        option("scope", "none", "shuts"),
        option("colour", "none", "oat", "frost"),
        option("own-doors", "no", "yes"),
        option("packing", "dolly", "crate"),
        option("delivery", "collected", "van", "port", "door-germany", "door-elsewhere"),
    ),
    lines=(
        line("body", "roadster", "A", 1185000, 1420000, base=True),
        line("body", "coupe", "A", 1320000, 1580000, base=True),
        line("primer", "filler", "A", 80000),
        line("scope", "shuts", "B", 485000, 585000),
        line("own-doors", "yes", "A", 24000, 29000),
        Line("own-doors-allowance", when("own-doors", "yes"), "A", {}, {"GBP": -42000, "EUR": -50500}),
        line("packing", "dolly", "C", 24000, 29000),
        line("packing", "crate", "C", 69000, 83000),
        line("delivery", "van", "D", 28500),
        line("delivery", "door-germany", "D", 115000, 138000),
        line("delivery", "door-elsewhere", "D", None),
    ),
    adjustments=(
        Adjustment("metallic", ("scope-shuts",), when("colour", "frost"), Decimal("1.12"), {}),
        Adjustment("filler-free", ("primer-filler",), All((when("finish", "painted"),)), Decimal(0), {}, waives=True),
    ),
    tax=Tax(
        home="GB",
        rates=(TaxRate("2008-12-01", Decimal(15)), TaxRate("2011-01-04", Decimal(20))),
        goes=(
            Goes("collected", "collected"),
            Goes("van", "home"),
            Goes("port", "abroad"),
            Goes("door-elsewhere", "abroad"),
            Goes("door-germany", "abroad", "DE"),
        ),
    ),
    terms=Terms(
        deposit_percent=Decimal(25),
        several_from=3,
        several_percent=Decimal(3),
        ceiling_category="A",
        ceiling_percent=Decimal(22),
    ),
    extras=(
        Extra("photo-book", {}, {}, "C", {"GBP": 14500, "EUR": 17500}),
        Extra("storage-week", {}, {}, "C", {"GBP": 3500}),
    ),
)

ROADSTER = {
    "body": "roadster",
    "finish": "primed",
    "primer": "standard",
    "scope": "none",
    "colour": "none",
    "own-doors": "no",
    "packing": "dolly",
    "delivery": "collected",
}
COUPE = {**ROADSTER, "body": "coupe"}


def cases(delivery: str, country: str | None, customer: str, region: str | None = None) -> tuple[TaxCase, ...]:
    """The tax cases; the delivery has to be one that has some."""
    found = tax_cases(BOOK, delivery, country, region, customer, TODAY)
    assert not isinstance(found, TaxRefusal), found
    return found
