"""Which parts of the donor car are sent and which are kept, derived from what is settled of a specification."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rules.answer import Depends, Verdict
from rules.donor.resolve import domains_of, holds_with
from rules.model import Book, Keep
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Sent:
    """A customer's part that `rule` asks for, and the ids of what travels with it."""

    rule: str
    company: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Kept:
    """Nothing at all where the shell can't be built: a part must not be cut out for nothing.

    `sent`: customer's parts, in the book's order; `besides`: ids of what is sent by itself, before a stage of its own;
    `refit`: ids of what is kept for the new shell.
    """

    sent: tuple[Sent, ...] = ()
    besides: tuple[str, ...] = ()
    refit: tuple[str, ...] = ()


def kept_of(
    book: Book, donor: Donor, settled: Mapping[str, str], depends: Depends, verdicts: tuple[Verdict, ...]
) -> Kept:
    """What is sent and kept for one shell, as far as `settled` tells it for sure."""
    if Verdict.CANT in verdicts:
        return Kept()
    domains = domains_of(book)
    due = [keep for keep in book.keeps if holds_with(keep.when, book, donor, settled, domains)]
    return Kept(
        sent=tuple(Sent(rule, _with(rule, due)) for rule in depends.parts),
        besides=tuple(keep.id for keep in due if keep.before is not None),
        refit=tuple(keep.id for keep in due if keep.before is None and keep.together_with is None),
    )


def _with(rule: str, due: list[Keep]) -> tuple[str, ...]:
    return tuple(keep.id for keep in due if keep.together_with == rule)
