"""What a book forbids and what its other rules speak of, as conditions over choices alone, each under its id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rules.condition import All, Condition, Not
from rules.donor.resolve import resolve
from rules.model import Book, Kind, Rule, ToolCondition
from rules.specification import Donor
from rules.tools import banning_tools, gating_tools


@dataclass(frozen=True, slots=True)
class Ban:
    """`when` can't be built, and `id` (a rule's or a lost tool's) says why. An id may have two bans."""

    id: str
    when: Condition


@dataclass(frozen=True, slots=True)
class Speaks:
    """`id` has something to say of a shell where `when` holds: a rule of this `kind`, or (None) a tool that is down."""

    id: str
    kind: Kind | None
    when: Condition


def bans(book: Book, states: Mapping[str, ToolCondition], donor: Donor) -> tuple[Ban, ...]:
    """Everything that forbids, in the book's order, lost tools last. What is not known of the donor never forbids."""
    rules = ((rule.id, breach) for rule in book.rules for breach in _breaches(rule))
    tools = ((tool.id, tool.needed_for) for tool in banning_tools(book, states))
    return tuple(Ban(id_, resolve(when, book, donor)) for id_, when in (*rules, *tools))


def speaking(book: Book, states: Mapping[str, ToolCondition], donor: Donor) -> tuple[Speaks, ...]:
    """Parts, approvals, cautions and holds in the book's order, then the tools that are down."""
    rules = ((rule.id, kind, rule.when) for rule in book.rules for kind in Kind if kind in rule.kinds - HARD)
    tools = ((tool.id, None, tool.needed_for) for tool in gating_tools(book, states))
    return tuple(Speaks(id_, kind, resolve(when, book, donor)) for id_, kind, when in (*rules, *tools))


HARD = frozenset((Kind.NEVER, Kind.NEEDS))


def _breaches(rule: Rule) -> Iterator[Condition]:
    if Kind.NEVER in rule.kinds:
        yield rule.when
    if Kind.NEEDS in rule.kinds and rule.needs is not None:
        yield All((rule.when, Not(rule.needs)))
