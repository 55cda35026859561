"""A book's own tests: specifications of which the firm knows the answer, held against what the engine says."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from rules.answer import Answer, Verdict
from rules.donor.usual import key_options, usual_specification
from rules.engine.ask import ask
from rules.engine.view import Ready
from rules.model import Book, Known
from rules.money.price import Tariff, price_shell
from rules.specification import Donor, Specification, Taken

#: What each verdict is in the words of a known specification.
_ANSWERS = {Verdict.CANT: "no", Verdict.ONCE: "once", Verdict.NOT_AS_HAD: "yes", Verdict.AS_HAD: "yes"}


@dataclass(frozen=True, slots=True)
class Held:
    """`answer`, `because` and, where it is looked at, `price` as the engine gives them.

    `wrong`: which of the three are not what is known. `because`: each cause of a no, or all that a *once* waits for.
    """

    known: Known
    answer: str
    because: tuple[frozenset[str], ...]
    price: int | None
    wrong: tuple[str, ...]


def hold_known(book: Book, prepared: Callable[[Donor], Ready]) -> tuple[Held, ...]:
    """Every known specification of the book; `prepared` gives the book made ready for a donor car."""
    return tuple(_held(book, known, prepared) for known in book.known)


def specification_of(book: Book, known: Known) -> Specification:
    """What it says, and the usual for the rest where that is taken over."""
    made = dict(known.made)
    if known.usual:
        keys = {key: made[key] for key in key_options(book) if key in made}
        made = {**usual_specification(book, keys, donor_of(known)), **made}
    return Specification({option: Taken(choice) for option, choice in made.items()})


def donor_of(known: Known) -> Donor:
    """The donor car it is known for."""
    return Donor(known.series, known.number, known.gearbox)


def _held(book: Book, known: Known, prepared: Callable[[Donor], Ready]) -> Held:
    tariff = Tariff(known.price[0] if known.price else "")
    answer = ask(prepared(donor_of(known)), specification_of(book, known), tariff)
    price = price_shell(book, answer.settled, donor_of(known), tariff).net if known.price else None
    because = _because(answer)
    wrong = tuple(_wrong(known, _ANSWERS[answer.verdict], because, price))
    return Held(known, _ANSWERS[answer.verdict], because, price, wrong)


def _because(answer: Answer) -> tuple[frozenset[str], ...]:
    if answer.verdict is Verdict.CANT:
        return tuple(map(frozenset, answer.causes))
    waits = frozenset((*answer.depends.parts, *answer.depends.approvals))
    return (waits,) if waits else ()


def _wrong(known: Known, answer: str, because: tuple[frozenset[str], ...], price: int | None) -> Iterator[str]:
    if known.answer != answer:
        yield "answer"
    if known.because and known.because not in because:
        yield "because"
    if known.price and known.price[1] != price:
        yield "price"
