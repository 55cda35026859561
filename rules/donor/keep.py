"""Which parts of the donor car are sent and which are kept, derived from what is settled of a specification."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rules.answer import Depends, Verdict
from rules.donor.resolve import domains_of, holds_with
from rules.donor.usual import key_options, usual_specification
from rules.model import Book, Keep, Role
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
    `refit`: ids of what is kept for the new shell; `lacking`: those that the donor car never had.
    """

    sent: tuple[Sent, ...] = ()
    besides: tuple[str, ...] = ()
    refit: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()


def kept_of(
    book: Book, donor: Donor, settled: Mapping[str, str], depends: Depends, verdicts: tuple[Verdict, ...]
) -> Kept:
    """What is sent and kept for one shell, as far as `settled` tells it for sure."""
    if Verdict.CANT in verdicts:
        return Kept()
    domains = domains_of(book)
    due = [keep for keep in book.keeps if holds_with(keep.when, book, donor, settled, domains)]
    refit = [keep for keep in due if keep.before is None and keep.together_with is None]
    had = _as_built(book, donor, settled)
    return Kept(
        sent=tuple(Sent(rule, _with(rule, due)) for rule in depends.parts),
        besides=tuple(keep.id for keep in due if keep.before is not None),
        refit=tuple(keep.id for keep in refit),
        lacking=tuple(keep.id for keep in refit if had and not holds_with(keep.when, book, donor, had, domains)),
    )


def _as_built(book: Book, donor: Donor, settled: Mapping[str, str]) -> Mapping[str, str]:
    """What the donor car had, for the market and body as ordered; empty where car or keys aren't known."""
    keys = {key: settled[key] for key in key_options(book) if key in settled}
    if donor.series is None or Role.SERIES not in book.roles or len(keys) < len(key_options(book)):
        return {}
    return usual_specification(book, keys | {book.roles[Role.SERIES]: donor.series}, donor)


def _with(rule: str, due: list[Keep]) -> tuple[str, ...]:
    return tuple(keep.id for keep in due if keep.together_with == rule)
