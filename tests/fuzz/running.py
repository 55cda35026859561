"""Puts the questions of a walk to the engine and to the oracles. One compiled book answers as long as it may."""

from __future__ import annotations

from collections.abc import Iterator
from traceback import format_exc

from rules.answer import Answer
from rules.donor.resolve import facts_key
from rules.engine.ask import Prepared, ask, prepare
from rules.engine.numbers import Patience
from rules.engine.prepare import LIMIT
from rules.engine.without_diagram import prepare_without_diagram
from tests.fuzz.by_list import against_a_list
from tests.fuzz.by_solver import Doubting, against_a_solver
from tests.fuzz.differing import Difference, compared
from tests.fuzz.walks import Question, Walk
from tests.rules.listed import Listed
from tests.rules.random_books import Asked


class Failed(str):
    """The engine (or an oracle) raised; the text is where."""


def differences_of(walk: Walk) -> Iterator[tuple[Question, list[Difference] | Failed]]:
    """Each question of the walk, with what differs."""
    round_ = _Round(walk)
    for question in walk.questions:
        try:
            yield question, list(round_.differences(question))
        except Exception:
            yield question, Failed(format_exc())


def _without_diagram(asked: Asked, answer: Answer) -> list[Difference]:
    """A book that is asked without a diagram answers the same, to the last field."""
    bare = prepare_without_diagram(asked.book, asked.states, asked.donor, patience=Patience(LIMIT, LIMIT))
    found = ask(bare, asked.specification, asked.tariff)
    fields = ("verdicts", "options", "causes", "count", "outright", "price_from", "depends", "settled", "capped")
    return list(compared(*((f"without a diagram: {f}", getattr(found, f), getattr(answer, f)) for f in fields)))


class _Round:
    """What may be kept from one question to the next."""

    def __init__(self, walk: Walk) -> None:
        self._wide = walk.wide
        self._prepared: dict[object, Prepared] = {}
        self._lists: dict[object, Listed] = {}
        self._solvers: dict[object, Doubting] = {}

    def differences(self, question: Question) -> Iterator[Difference]:
        asked = question.asked
        prepared = self._ready(asked)
        answer: Answer = ask(prepared, asked.specification, asked.tariff)
        if question.step % 3 == 0:
            yield from _without_diagram(asked, answer)
        if not self._wide:
            yield from against_a_list(question, prepared, answer, self._listed(asked))
        if self._wide or question.step == 0:
            yield from against_a_solver(question, prepared, answer, self._doubting(asked))

    def _ready(self, asked: Asked) -> Prepared:
        """Shared by the donors that the book doesn't tell apart, as the service shares it."""
        key = (tuple(sorted(asked.states.items(), key=str)), facts_key(asked.book, asked.donor))
        if key not in self._prepared:
            self._prepared[key] = prepare(asked.book, asked.states, asked.donor)
        return self._prepared[key]

    def _listed(self, asked: Asked) -> Listed:
        key = str((asked.states, asked.donor, asked.tariff))
        if key not in self._lists:
            self._lists[key] = Listed(asked.book, asked.states, asked.donor, asked.tariff).list_all()
        return self._lists[key]

    def _doubting(self, asked: Asked) -> Doubting:
        key = str((asked.states, asked.donor))
        if key not in self._solvers:
            self._solvers[key] = Doubting(asked)
        return self._solvers[key]
