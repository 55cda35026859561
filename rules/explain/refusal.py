"""A refusal as a small tree, ready for words: who gave each answer, what each rule is, the telling ones first.

Words are made elsewhere; nothing is looked for here that `rules.explain.reasons` has not found.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum

from rules.donor.usual import key_options
from rules.engine.view import Ready
from rules.explain.reasons import Answered, Reason, reasons
from rules.model import Book
from rules.specification import Origin, Specification


class Sort(Enum):
    """What stands against what.

    WISH: the answers and rules against the wish. ANSWERS: answers against each other, wish or no wish. DEAD: the wish,
    or the one answer named, can be built on no shell. BOOK: nothing can be built at all.
    """

    WISH = "wish"
    ANSWERS = "answers"
    DEAD = "dead"
    BOOK = "book"


@dataclass(frozen=True, slots=True)
class Given:
    """One answer and who gave it. `as_had`: it was taken over, and the original car had it so."""

    option: str
    choice: str
    origin: Origin
    as_had: bool = False


@dataclass(frozen=True, slots=True)
class Against:
    """What speaks: a rule, or a lost tool under its own id."""

    id: str
    tool: bool


@dataclass(frozen=True, slots=True)
class Told:
    """One reason. `answers`: the reader's own before those taken over, then series, market and body, then the rest."""

    sort: Sort
    answers: tuple[Given, ...]
    against: tuple[Against, ...]


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why the `wish`, or without one the answers themselves, can't be built; no reasons: it can.

    `dead`: the wish can be built on no shell. `capped`: there are more reasons than are told.
    """

    wish: Answered | None
    reasons: tuple[Told, ...]
    capped: bool

    @property
    def stands(self) -> bool:
        """Whether nothing is refused."""
        return not self.reasons

    @property
    def dead(self) -> bool:
        """Whether no shell can have the wish."""
        return self.wish is not None and any(told.sort is Sort.DEAD and not told.answers for told in self.reasons)


def refuse(prepared: Ready, specification: Specification, wish: Answered | None = None) -> Refusal:
    """The reasons why the answers, with the wish in place of its option's answer, can't be built.

    Reasons over the reader's own answers alone come first; otherwise they keep the order of `reasons`. All names are
    known to the book.
    """
    found, capped = reasons(prepared, specification.choices(), wish)
    told = (tell(prepared, specification, reason) for reason in found)
    return Refusal(wish, tuple(sorted(told, key=_taken_over)), capped)


def tell(prepared: Ready, specification: Specification, reason: Reason) -> Told:
    """A reason with its answers in the order in which they are said, each with its origin."""
    answers = given(prepared, specification, reason.answers)
    return Told(_sort(reason), answers, against(prepared.book, reason.rules))


def given(prepared: Ready, specification: Specification, answers: Iterable[Answered]) -> tuple[Given, ...]:
    """The answers with their origin, the reader's own first, series, market and body first among them.

    An answer that came with a suggestion is taken over, too, but not what the original had: it isn't called so.
    """
    book = prepared.book
    names = dict.fromkeys((*key_options(book), *(option.id for option in book.options)))
    places = {option: place for place, option in enumerate(names)}
    known = _given(prepared, specification, answers)
    return tuple(sorted(known, key=lambda each: (each.origin is Origin.USUAL, places[each.option])))


def _given(prepared: Ready, specification: Specification, answers: Iterable[Answered]) -> Iterator[Given]:
    choices = specification.choices()
    had = {key: choices[key] for key in key_options(prepared.book) if key in choices} | prepared.original.usual(choices)
    for option, choice in answers:
        origin = specification.answers[option].origin
        yield Given(option, choice, origin, origin is Origin.USUAL and had.get(option) == choice)


def against(book: Book, ids: Iterable[str]) -> tuple[Against, ...]:
    """Rules and lost tools, told apart."""
    rules = {rule.id for rule in book.rules}
    return tuple(Against(id_, id_ not in rules) for id_ in ids)


def _sort(reason: Reason) -> Sort:
    if len(reason.answers) + (reason.wish is not None) == 1:
        return Sort.DEAD
    if reason.wish is not None:
        return Sort.WISH
    return Sort.ANSWERS if reason.answers else Sort.BOOK


def _taken_over(told: Told) -> int:
    return sum(each.origin is Origin.USUAL for each in told.answers)
