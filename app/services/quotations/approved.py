"""Which of the approvals that lines depend on have been given: read beside an answer, which they never change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.quotations.approval import Need, fingerprint, granted, needs_of, structure_of
from app.domain.quotations.quotation import Approved
from app.services.books.publishing import book as book_of
from app.services.people.introducing import display_names
from app.store import approvals
from app.store.db import Store
from rules.model import Book

#: A line's settled choices, and the rules whose approval it depends on.
Bound = tuple[Mapping[str, str], Sequence[str]]


def needs(store: Store, revision: int, book: Book, lines: Sequence[Bound]) -> tuple[tuple[Need, ...], ...]:
    """Line by line, what each needs, with what was ever asked for on its quotation and is bound to that structure."""
    if not any(rules for _, rules in lines):
        return tuple(() for _ in lines)
    with store.reading() as db:
        asked = approvals.of_revision(db, revision)
    return tuple(
        tuple(needs_of(at, rules, fingerprint(structure_of(book, settled)), asked))
        for at, (settled, rules) in enumerate(lines, start=1)
    )


def still_open(store: Store, numbers: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """quotation → rules still to be approved of what is out; only of those on which some approval has been given."""
    with store.reading() as db:
        given = {number: marks for number, marks in approvals.granted(db, numbers).items() if marks}
        out = {number: approvals.last_out(db, number) for number in given}
    return {number: _open(store, *line, given[number]) for number, line in out.items() if line is not None}


def _open(store: Store, number: int, lines: Sequence[Bound], given: frozenset[tuple[str, str]]) -> tuple[str, ...]:
    book = book_of(store, number)
    marked = ((rule, fingerprint(structure_of(book, settled))) for settled, rules in lines for rule in rules)
    return tuple(dict.fromkeys(rule for rule, mark in marked if (rule, mark) not in given))


def approved(store: Store, revision: int, book: Book, lines: Sequence[Bound]) -> tuple[tuple[Approved, ...], ...]:
    """Line by line, what has been given, as a paper says it."""
    found = needs(store, revision, book, lines)
    if not any(need.met for line in found for need in line):
        return tuple(() for _ in lines)
    names = display_names(store)
    return tuple(granted(line, names) for line in found)
