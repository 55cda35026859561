"""The full answer on random rule books against a list of every specification, made with itertools.product."""

from __future__ import annotations

from hypothesis import given, settings

from rules.answer import Answer, Depends, State
from rules.engine.ask import ask, prepare
from tests.rules.listed import Listed
from tests.rules.random_books import Asked
from tests.rules.strategies import questions


@settings(max_examples=150)
@given(questions())
def test_every_answer_is_what_a_list_of_all_shells_says(asked: Asked) -> None:
    listed = Listed(asked.book, asked.states, asked.donor, asked.tariff).list_all()
    answer = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    _whole(answer, asked, listed)
    for option in answer.options:
        for choice in option.choices:
            _choice(answer, asked, listed, option.option, choice.choice)


def _whole(answer: Answer, asked: Asked, listed: Listed) -> None:
    made = asked.specification.choices()
    can = bool(listed.buildable(made))
    assert answer.verdicts == listed.verdicts(made)
    assert answer.verdict == answer.verdicts[0]
    assert (answer.count, answer.outright) == (len(listed.buildable(made)), len(listed.outright(made)))
    assert answer.price_from == listed.price_from(made)
    assert answer.settled == listed.settled(made)
    assert answer.depends == (listed.depends(made) if can else Depends())
    assert answer.causes == (() if can else listed.causes(made))
    assert answer.open_questions == tuple(option for option in listed.domains if option not in answer.settled)
    assert answer.complete == (len(answer.settled) == len(listed.domains))
    assert not answer.capped


def _choice(answer: Answer, asked: Asked, listed: Listed, option: str, name: str) -> None:
    made = asked.specification.choices()
    there = {**made, option: name}
    (found,) = (c for o in answer.options if o.option == option for c in o.choices if c.choice == name)
    assert found.state is listed.state(asked.specification, option, name)
    assert found.answered == (made.get(option) == name)
    assert found.usual == listed.is_usual(made, option, name)
    if found.state is State.CLOSED:
        assert (found.price_from, found.difference, found.depends) == (None, None, Depends())
        assert found.causes == listed.causes(there)
        return
    assert found.price_from == listed.price_from(there)
    assert found.difference == listed.difference(made, option, name)
    assert found.depends == listed.depends(there)
    assert found.causes == ()
