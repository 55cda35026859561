"""Which of the approvals that lines depend on have been given: read beside an answer, which they never change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.domain.approval import Need, fingerprint, granted, needs_of, structure_of
from app.domain.quotation import Approved
from app.store import approvals, people
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


def approved(store: Store, revision: int, book: Book, lines: Sequence[Bound]) -> tuple[tuple[Approved, ...], ...]:
    """Line by line, what has been given, as a paper says it."""
    found = needs(store, revision, book, lines)
    if not any(need.met for line in found for need in line):
        return tuple(() for _ in lines)
    with store.reading() as db:
        names = {person.name: person.display_name for person in people.people(db)}
    return tuple(granted(line, names) for line in found)
