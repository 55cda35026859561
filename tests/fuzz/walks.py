"""Random walks over random rule books: what the desk, the tool room and the office may do one after another.

A book and everything that is asked of it follow from the seed and the book's number alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from random import Random

from rules.model import Book, ToolCondition
from rules.specification import Origin, Specification, Taken
from tests.fuzz.wide_books import make_wide_book
from tests.rules.random_books import Asked, make_book, make_donor, make_question, make_tariff

#: Questions on one book.
STEPS = 12
#: Every so many books one is too wide to list all its shells.
WIDE = 5


@dataclass(frozen=True)
class Question:
    """One step of a walk. `wish`: a choice of one of the book's options, asked about beside the answers."""

    step: int
    did: str
    asked: Asked
    wish: tuple[str, str]


@dataclass(frozen=True)
class Walk:
    """`wide`: a list of all shells would be too long."""

    number: int
    book: Book
    wide: bool
    questions: tuple[Question, ...]


def walk(seed: int, number: int) -> Walk:
    """The walk over one book of a seed."""
    rng = Random(f"{seed}/{number}")
    wide = number % WIDE == WIDE - 1
    book = make_wide_book(rng) if wide else make_book(rng)
    return Walk(number, book, wide, tuple(_questions(rng, book)))


def _questions(rng: Random, book: Book) -> Iterator[Question]:
    asked, did = replace(make_question(rng), book=book), "began"
    asked = replace(asked, states=_states(rng, book), donor=make_donor(rng, book), specification=Specification())
    for step in range(STEPS):
        yield Question(step, did, asked, _wish(rng, book))
        did, change = rng.choice(_DEEDS)
        asked = change(rng, asked)


def _wish(rng: Random, book: Book) -> tuple[str, str]:
    option = rng.choice(book.options)
    return option.id, rng.choice(option.choices).id


def _states(rng: Random, book: Book) -> dict[str, ToolCondition]:
    return {tool.id: rng.choice(tuple(ToolCondition)) for tool in book.tools if rng.random() < 0.9}


def _answer(rng: Random, asked: Asked) -> Asked:
    option, choice = _wish(rng, asked.book)
    taken = Taken(choice, rng.choice((Origin.CHOSEN, Origin.CHOSEN, Origin.USUAL)))
    return replace(asked, specification=Specification({**asked.specification.answers, option: taken}))


def _answer_several(rng: Random, asked: Asked) -> Asked:
    for _ in range(rng.randint(2, 4)):
        asked = _answer(rng, asked)
    return asked


def _clear(rng: Random, asked: Asked) -> Asked:
    answers = dict(asked.specification.answers)
    if answers:
        del answers[rng.choice(tuple(answers))]
    return replace(asked, specification=Specification(answers))


def _clear_all(rng: Random, asked: Asked) -> Asked:
    return replace(asked, specification=Specification())


def _retool(rng: Random, asked: Asked) -> Asked:
    return replace(asked, states=_states(rng, asked.book))


def _other_car(rng: Random, asked: Asked) -> Asked:
    return replace(asked, donor=make_donor(rng, asked.book))


def _other_tariff(rng: Random, asked: Asked) -> Asked:
    return replace(asked, tariff=make_tariff(rng))


_DEEDS: tuple[tuple[str, Callable[[Random, Asked], Asked]], ...] = (
    *(("answered", _answer),) * 8,
    *(("answered several", _answer_several),) * 2,
    *(("took an answer back", _clear),) * 3,
    ("took all answers back", _clear_all),
    ("changed the tools", _retool),
    ("took another donor car", _other_car),
    ("took another tariff", _other_tariff),
)
