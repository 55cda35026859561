"""The full answer is written without its schema: what is written and what the interface's document says stay one."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from flask import g
from marshmallow import Schema, fields

from app.domain.asking.people import Person, Role
from app.domain.books.tool_state import ToolStates
from app.domain.quotations.quotation import DeliveryPlace
from app.services.answering.pricing import Deal, day_of, sum_of, tariff_of
from app.services.answering.specifying import Answered
from app.services.planning.readying import ready_of
from app.store.sessions import SignIn
from app.web import here
from app.web.schemas.asking import AnswerOut
from app.web.views.answering import answered_view
from rules.answer import Answer, Verdict
from rules.engine.ask import ask, prepare
from rules.engine.numbers import Patience
from rules.engine.without_diagram import prepare_without_diagram
from rules.model import Book
from rules.money.price import price_shell
from rules.specification import Donor, Specification
from tests.rules.demo_book import NO_DONOR, PRIVATE, STATES, chosen, prepared, whole
from tests.rules.large_books import tangled
from tests.rules.random_books import make_question
from tests.web.conftest import START, Desk, opened

CLERK = Person("imogen", "Imogen", Role.CLERK, None, "en")
COMPLETE = {"series": "s3", "market": "home", "body": "roadster", "finish": "painted", "colour": "moss"}
#: What is asked of the demo book: choices made, donor, price list, country of delivery, shells.
DEMO: tuple[tuple[dict[str, str], Donor, str, str, int], ...] = (
    ({}, NO_DONOR, "GBP", "", 1),
    (COMPLETE, Donor("s3", 12044, "manual"), "EUR", "DE", 1),
    ({"series": "s4", "body": "coupe", "roof": "folding"}, Donor("s2", 5900, None), "USD", "US", 1),
    ({"scuttle": "vented"}, NO_DONOR, "GBP", "GB", 1),
    ({"body": "roadster", "roof": "folding", "scuttle": "vented"}, NO_DONOR, "GBP", "GB", 3),
)


@pytest.fixture(scope="module")
def desk(filled: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One desk for all: nothing is kept here."""
    with opened(filled, tmp_path_factory.mktemp("one") / "data") as desk:
        yield desk


def whole_shell(made: dict[str, str], **over: str) -> Specification:
    """A whole shell: the choices made, and for the rest the first that can still be had."""
    taken = {**made, **{option.replace("_", "-"): choice for option, choice in over.items()}}
    while not (said := ask(prepared(), chosen(taken), PRIVATE)).complete:
        first = next(option for option in said.options if option.option in said.open_questions)
        taken[first.option] = next(c.choice for c in first.choices if c.state.value != "closed")
    return chosen(taken)


def demo_answer(specification: Specification, donor: Donor, price_list: str, country: str, shells: int) -> Answered:
    book = whole()
    tariff = tariff_of(book, None, price_list)
    deal = Deal(book, donor, tariff, DeliveryPlace(country, ""), country, day_of(book, START))
    said = ask(prepare(book, STATES, donor, order=prepared().order), specification, tariff)
    can = said.verdict is not Verdict.CANT
    summed = sum_of(deal, [(said.settled, shells)], {}) if can and said.complete else None
    return Answered(
        book=book,
        tools=ToolStates(7, {}),
        price_list=price_list,
        currency=deal.currency,
        answer=said,
        price=price_shell(book, said.settled, donor, tariff, shells) if can else None,
        totals=None if summed is None else summed.totals,
        untold=None if summed is None else summed.untold.get(0),
        ready=ready_of(book, said.settled, donor, said.depends) if can else None,
    )


def plain_answer(book: Book, said: Answer, donor: Donor = NO_DONOR) -> Answered:
    """An answer on a book that has neither a calendar nor taxes."""
    price = None if said.verdict is Verdict.CANT else price_shell(book, said.settled, donor, PRIVATE)
    return Answered(book, ToolStates(0, {}), "GBP", "GBP", said, price, None)


def written(desk: Desk, answered: Answered, *, prices: bool, language: str = "en") -> dict[str, Any]:
    """What goes over the wire to this reader."""
    with desk.app.test_request_context("/api/answers"):
        g.sign_in = SignIn(CLERK, prices, language)
        view: dict[str, Any] = json.loads(here.written(answered_view(answered)).get_data())
        return view


def dumped(desk: Desk, view: dict[str, Any], *, prices: bool) -> dict[str, Any]:
    """The same through the schema, which hides what is not to be seen."""
    with desk.app.test_request_context("/api/answers"):
        g.sign_in = SignIn(CLERK, prices, "en")
        return dict(AnswerOut().dump(view))


def complete(schema: Schema, value: dict[str, Any], path: str = "") -> None:
    """Every field of the schema stands in what is written, in the schema's order, and nothing else; nested ones too."""
    assert list(value) == list(schema.fields), path
    for name, field in schema.fields.items():
        inner = field.inner if isinstance(field, fields.List) else field
        if isinstance(inner, fields.Nested) and value[name] is not None:
            for part in value[name] if inner is not field else [value[name]]:
                complete(inner.schema, part, f"{path}.{name}")


def as_the_document_says(desk: Desk, answered: Answered) -> None:
    shown = written(desk, answered, prices=True)
    complete(AnswerOut(), shown)
    assert AnswerOut().load(shown) == shown  # unknown names and wrong kinds are refused
    assert dumped(desk, shown, prices=True) == shown
    hidden = written(desk, answered, prices=False)
    complete(AnswerOut(), hidden)
    assert dumped(desk, shown, prices=False) == hidden


@pytest.mark.parametrize("asked", DEMO)
def test_the_demo_firms_answers(desk: Desk, asked: tuple[dict[str, str], Donor, str, str, int]) -> None:
    made, donor, price_list, country, shells = asked
    as_the_document_says(desk, demo_answer(chosen(made), donor, price_list, country, shells))


def test_a_whole_shell_with_its_price_its_tax_and_its_days(desk: Desk) -> None:
    answered = demo_answer(whole_shell(COMPLETE, delivery="van"), NO_DONOR, "GBP", "GB", 3)
    view = written(desk, answered, prices=True)
    assert (view["totals"]["decided"], view["price"]["unpriced"], view["untold"]) == (True, [], None)
    assert view["totals"]["lines_net"] == 3 * view["price"]["net"]
    assert view["price"]["lines"][0]["several"] > 0
    assert view["ready"]["from_days"] < view["ready"]["to_days"]
    as_the_document_says(desk, answered)


def test_a_shell_whose_tax_can_t_be_told(desk: Desk) -> None:
    answered = demo_answer(whole_shell(COMPLETE, delivery="collected"), NO_DONOR, "GBP", "", 1)
    assert written(desk, answered, prices=True)["untold"]["why"] == "customer-country-open"
    as_the_document_says(desk, answered)


def test_a_shell_that_the_list_has_no_price_for(desk: Desk) -> None:
    answered = demo_answer(whole_shell(COMPLETE, delivery="van"), NO_DONOR, "USD", "GB", 1)
    view = written(desk, answered, prices=True)
    assert view["price"]["unpriced"]
    assert view["price"]["net"] is None
    as_the_document_says(desk, answered)


@pytest.mark.parametrize("seed", range(40))
def test_answers_on_random_books(desk: Desk, seed: int) -> None:
    asked = make_question(Random(seed))
    said = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    as_the_document_says(desk, plain_answer(asked.book, said, asked.donor))


def test_an_answer_that_counts_and_prices_nothing(desk: Desk) -> None:
    book = tangled(30, 5)
    bare = prepare_without_diagram(book, {}, NO_DONOR, patience=Patience(0, 0))
    answered = plain_answer(book, ask(bare, Specification(), PRIVATE))
    view = written(desk, answered, prices=True)
    assert (view["count"], view["price_from"]["worked_out"]) == (None, False)
    as_the_document_says(desk, answered)


def test_the_answer_of_the_desk_itself(desk: Desk) -> None:
    clerk = desk.signed_in("imogen")
    answer = clerk.post("/api/answers", {"specification": clerk.specification(), "delivery_place": {"country": "GB"}})
    assert (answer.status_code, answer.mimetype) == (200, "application/json")
    complete(AnswerOut(), answer.get_json())
    assert answer.get_json()["totals"]["tax_cases"][0]["with_tax"] > 0
