"""Compiling keeps nobody waiting: what takes longer is answered without a diagram until the diagram is there."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event
from time import monotonic, sleep

import pytest

from app.domain.errors import BeingWorkedOut, NearestNotSought
from app.services.answering import advising, specifying
from app.services.answering.specifying import Asked
from app.services.books import compiling, publishing
from app.services.books.shelf import bare_of, compiling_of
from app.store import books
from demo.loading import BOOK
from rules.answer import State
from rules.engine.prepare import Prepared
from rules.engine.without_diagram import WithoutDiagram
from rules.specification import Specification
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk


def another_book(desk: Desk) -> int:
    """The demo book with a remark more, compiled nowhere yet."""
    return publishing.publish_book(desk.store, MANAGER, BOOK.read_text("utf-8") + "\n# once more\n", NOW)


def test_a_published_book_keeps_the_order_of_its_diagram(desk: Desk) -> None:
    number = another_book(desk)
    with desk.store.reading() as db:
        order = books.order(db, number)
    assert order is not None
    assert sorted(order) == sorted(option.id for option in publishing.book(desk.store, number).options)
    prepared = specifying.answer(desk.store, CLERK, Asked(Specification(), book=number), NOW).prepared
    assert prepared is not None
    assert prepared.order == order


def test_a_book_that_takes_long_is_answered_without_a_diagram_until_it_is_compiled(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compiling, "QUICKLY", 10)
    asked = Asked(desk.specification({**S3_ROADSTER, "roof": "folding"}), book=another_book(desk))
    first = specifying.answer(desk.store, CLERK, asked, NOW)
    assert isinstance(first.prepared, WithoutDiagram)
    assert _until(lambda: isinstance(specifying.answer(desk.store, CLERK, asked, NOW).prepared, Prepared))
    then = specifying.answer(desk.store, CLERK, asked, NOW)
    assert first.answer.verdicts == then.answer.verdicts
    assert first.answer.causes == then.answer.causes
    for one, other in zip(first.answer.options, then.answer.options, strict=True):
        assert [(c.state, c.causes) for c in one.choices] == [(c.state, c.causes) for c in other.choices]


def test_a_book_too_large_for_any_diagram_answers_and_gives_reasons_but_no_alternatives(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compiling, "QUICKLY", 10)
    monkeypatch.setattr(compiling, "ROOM", 20)
    number = another_book(desk)
    asked = Asked(desk.specification(S3_ROADSTER), book=number)
    answer = specifying.answer(desk.store, CLERK, asked, NOW).answer
    wish = next((o.option, c.choice) for o in answer.options for c in o.choices if c.state is State.CLOSED)
    assert advising.reasons(desk.store, CLERK, asked, wish, NOW).refusal
    assert advising.why(desk.store, CLERK, asked, "rear-window", NOW).grounds
    assert _until(lambda: not compiling_of(desk.store))
    with pytest.raises(NearestNotSought):
        advising.alternatives(desk.store, CLERK, asked, wish, NOW)
    assert isinstance(specifying.answer(desk.store, CLERK, asked, NOW).prepared, WithoutDiagram)
    assert [key for key in bare_of(desk.store)._made if isinstance(key, tuple) and key[0] == number]


def test_while_the_diagram_is_compiled_alternatives_are_asked_for_again_and_then_come(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compiling, "QUICKLY", 10)
    go_on, compile_ = Event(), compiling.compiled
    monkeypatch.setattr(compiling, "compiled", lambda *given: go_on.wait(30) and compile_(*given))
    asked = Asked(desk.specification(S3_ROADSTER), book=another_book(desk))
    with pytest.raises(BeingWorkedOut):
        advising.alternatives(desk.store, CLERK, asked, ("bumpers", "impact"), NOW)
    go_on.set()
    assert _until(lambda: not compiling_of(desk.store))
    assert advising.alternatives(desk.store, CLERK, asked, ("bumpers", "impact"), NOW).offers


def _until(holds: Callable[[], bool], seconds: float = 30) -> bool:
    began = monotonic()
    while not holds() and monotonic() - began < seconds:
        sleep(0.05)
    return holds()
