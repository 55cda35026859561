"""Reasons over answers and rules: nothing in one can be dropped, none is missing, the telling ones come first."""

from __future__ import annotations

from itertools import chain, combinations

from hypothesis import given, settings

from rules.engine.ask import prepare
from rules.explain.reasons import Answered, Reason, reasons
from tests.rules.demo_book import prepared
from tests.rules.listed import Listed
from tests.rules.random_books import Asked
from tests.rules.strategies import questions


def test_a_clash_names_the_readers_answers_and_the_rules_between_them() -> None:
    found, more = reasons(prepared(), {"rail-ends": "boxed", "dash": "hooded", "wax": "none"})
    assert found == (Reason((("dash", "hooded"), ("rail-ends", "boxed")), ("D1", "D2", "D5")),)
    assert not more


def test_a_right_hand_s3_for_north_america_is_refused_by_the_bulkhead_that_never_was() -> None:
    found, _ = reasons(prepared(), {"market": "north-america", "series": "s3", "body": "coupe"}, ("steering", "right"))
    assert found == (Reason((("market", "north-america"), ("series", "s3")), ("N6",), ("steering", "right")),)


def test_a_dead_choice_has_a_reason_with_no_answer_in_it() -> None:
    found, _ = reasons(prepared(), {"series": "s1"}, ("scuttle", "vented"))
    assert found == (Reason((), ("N1",), ("scuttle", "vented")),)


def test_a_wish_replaces_the_answer_and_what_clashes_without_it_is_told_apart() -> None:
    made = {"suspension": "four-link", "bumpers": "impact", "bonnet": "raised", "tunnel": "wide", "body": "coupe"}
    found, _ = reasons(prepared(), made, ("tunnel", "narrow"))
    clash = Reason((("suspension", "four-link"), ("bumpers", "impact")), ("N2",))
    assert clash in found
    assert Reason((("suspension", "four-link"),), ("N3",), ("tunnel", "narrow")) in found
    assert reasons(prepared(), {**made, "bumpers": "chrome"}, ("tunnel", "automatic")) == ((), False)


@settings(max_examples=80)
@given(questions())
def test_reasons_are_all_the_smallest_sets_that_a_list_of_all_shells_finds(asked: Asked) -> None:
    listed = Listed(asked.book, asked.states, asked.donor, asked.tariff).list_all()
    ready = prepare(asked.book, asked.states, asked.donor)
    made = asked.specification.choices()
    option = asked.book.options[-1]
    for wish in (None, (option.id, option.choices[0].id)):
        found, more = reasons(ready, made, wish)
        others = [answer for answer in made.items() if wish is None or answer[0] != wish[0]]
        expected = _smallest(listed, others, [] if wish is None else [wish])
        assert more or {(reason.answers, reason.rules) for reason in found} == expected
        assert {(reason.answers, reason.rules) for reason in found} <= expected
        for reason in found:
            alone = _clash(listed, reason.answers, reason.rules)
            assert reason.wish == (None if alone else wish)


def _smallest(
    listed: Listed, answers: list[Answered], wish: list[Answered]
) -> set[tuple[tuple[Answered, ...], tuple[str, ...]]]:
    ids = [rule.id for rule in listed.book.rules] + [tool.id for tool in listed.book.tools]
    ids = [id_ for id_ in ids if any(id_ in breach for breach in listed.breaches)]
    answers = [answer for option in listed.domains for answer in answers if answer[0] == option]
    found: list[frozenset[object]] = []
    things: list[object] = [*ids, *answers]
    for names in chain.from_iterable(combinations(things, size) for size in range(len(things) + 1)):
        if not any(less <= frozenset(names) for less in found) and _clash(
            listed,
            [*wish, *(name for name in names if isinstance(name, tuple))],
            [name for name in names if isinstance(name, str)],
        ):
            found.append(frozenset(names))
    return {(tuple(a for a in answers if a in least), tuple(i for i in ids if i in least)) for least in found}


def _clash(listed: Listed, answers: object, rules: object) -> bool:
    return all(listed.breaches[i] & set(rules) for i in listed.completions(dict(answers)))  # type: ignore[call-overload]
