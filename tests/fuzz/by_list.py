"""The engine against a list of all shells: every field of the answer, every reason, every suggestion.

What clashes is worked out from the other end than the engine does it: each shell of the list breaks some rules and goes
against some answers, and a reason is a smallest set that has something of each.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rules.answer import Answer, ChoiceAnswer, Depends, State
from rules.engine.prepare import Prepared
from rules.explain.reasons import Reason, reasons
from rules.specification import Origin, Taken
from rules.suggest import Suggestion, Suggestions, Surroundings, suggest
from tests.fuzz.differing import Difference, compared, hitting
from tests.fuzz.walks import Question
from tests.rules.listed import Listed, Made
from tests.rules.random_books import Asked

#: Causes and reasons listed at most.
CAP = 20


def against_a_list(question: Question, prepared: Prepared, answer: Answer, listed: Listed) -> Iterator[Difference]:
    """Everything that the list says differently."""
    asked = question.asked
    yield from _whole(answer, asked, listed)
    for option in answer.options:
        yield from compared((f"settled {option.option}", option.settled, answer.settled.get(option.option)))
        for choice in option.choices:
            yield from _choice(choice, answer, asked, listed, option.option)
    for wish in (None, question.wish):
        yield from _reasons(prepared, asked.specification.choices(), wish, listed)
    yield from _suggestions(question, prepared, listed)


def _whole(answer: Answer, asked: Asked, listed: Listed) -> Iterator[Difference]:
    made = asked.specification.choices()
    buildable, settled = listed.buildable(made), listed.settled(made)
    yield from compared(
        ("verdicts", answer.verdicts, listed.verdicts(made)),
        ("verdict", answer.verdict, answer.verdicts[0]),
        ("count", answer.count, len(buildable)),
        ("outright", answer.outright, len(listed.outright(made))),
        ("price from", answer.price_from, listed.price_from(made)),
        ("settled", answer.settled, settled),
        ("depends", answer.depends, listed.depends(made) if buildable else Depends()),
        ("open questions", answer.open_questions, tuple(option for option in listed.domains if option not in settled)),
        ("complete", answer.complete, len(settled) == len(listed.domains)),
        ("options", [o.option for o in answer.options], list(listed.domains)),
    )
    yield from _causes("causes", answer.causes, answer.capped, () if buildable else causes(listed, made))


def _choice(found: ChoiceAnswer, answer: Answer, asked: Asked, listed: Listed, option: str) -> Iterator[Difference]:
    made = asked.specification.choices()
    there, what = {**made, option: found.choice}, f"{option}: {found.choice}"
    state = listed.state(asked.specification, option, found.choice)
    yield from compared(
        (f"{what} state", found.state, state),
        (f"{what} answered", found.answered, made.get(option) == found.choice),
        (f"{what} usual", found.usual, listed.is_usual(made, option, found.choice)),
    )
    if state is State.CLOSED:
        plain = (found.price_from, found.difference, found.depends)
        yield from compared((f"{what} closed", plain, (None, None, Depends())))
        yield from _causes(f"{what} causes", found.causes, answer.capped, causes(listed, there))
        return
    yield from compared(
        (f"{what} price from", found.price_from, listed.price_from(there)),
        (f"{what} difference", found.difference, listed.difference(made, option, found.choice)),
        (f"{what} depends", found.depends, listed.depends(there)),
        (f"{what} causes", found.causes, ()),
    )


def causes(listed: Listed, made: Made) -> tuple[tuple[str, ...], ...]:
    """Every smallest set of ids that clashes with the choices made, fewest first, then in the book's order."""
    places = {id_: place for place, id_ in enumerate(ids_of(listed))}
    hits = hitting(frozenset(listed.breaches[i]) for i in listed.completions(made))
    ordered = sorted((len(hit), sorted(places[str(id_)] for id_ in hit)) for hit in hits)
    names = list(places)
    return tuple(tuple(names[place] for place in at) for _, at in ordered)


def ids_of(listed: Listed) -> list[str]:
    """Rules, then tools."""
    return [rule.id for rule in listed.book.rules] + [tool.id for tool in listed.book.tools]


def _causes(
    what: str, found: tuple[tuple[str, ...], ...], capped: bool, expected: tuple[tuple[str, ...], ...]
) -> Iterator[Difference]:
    if len(expected) <= CAP and not capped:
        yield from compared((what, found, expected))
    elif not (capped and set(found) <= set(expected) and len(found) <= CAP):
        yield Difference(f"{what} (capped: {capped})", found, expected)


def _reasons(prepared: Prepared, made: Made, wish: tuple[str, str] | None, listed: Listed) -> Iterator[Difference]:
    found, more = reasons(prepared, made, wish)
    others = {option: choice for option, choice in made.items() if wish is None or option != wish[0]}
    granted = dict((wish,)) if wish else {}
    broken = [_against(listed, i, others) for i in listed.completions(granted)]
    expected = {_sides(hit) for hit in hitting(broken)}
    named = {(frozenset(reason.answers), frozenset(reason.rules)) for reason in found}
    if named != expected and not (more and named <= expected and len(expected) > len(named)):
        yield Difference(f"reasons against {made}, wish {wish}", found, expected)
    ranks = [(len(reason.answers), len(reason.rules)) for reason in found]
    yield from compared((f"order of reasons, wish {wish}", ranks, sorted(ranks)))
    for reason in found:
        yield from compared((f"wish named in {reason}", reason.wish, _wish_needed(listed, reason, wish)))


def _against(listed: Listed, i: int, answers: Made) -> frozenset[object]:
    other = {(option, choice) for option, choice in answers.items() if listed.all[i][option] != choice}
    return frozenset({*listed.breaches[i], *other})


def _sides(hit: frozenset[object]) -> tuple[frozenset[object], frozenset[object]]:
    answers = frozenset(one for one in hit if isinstance(one, tuple))
    return answers, hit - answers


def _wish_needed(listed: Listed, reason: Reason, wish: tuple[str, str] | None) -> tuple[str, str] | None:
    alone = all(listed.breaches[i] & set(reason.rules) for i in listed.completions(dict(reason.answers)))
    return None if alone else wish


def _suggestions(question: Question, prepared: Prepared, listed: Listed) -> Iterator[Difference]:
    asked = question.asked
    around = Surroundings(prepared, asked.states, asked.donor)
    for wish in (None, question.wish):
        found = suggest(around, asked.specification, asked.tariff, wish)
        for suggestion in (*found.nearest, *found.fill, *found.keep):
            yield from _buildable(suggestion, listed)
        yield from _nearest(found, asked, wish, listed)


def _buildable(suggestion: Suggestion, listed: Listed) -> Iterator[Difference]:
    made = suggestion.specification.choices()
    (whole,) = listed.completions(suggestion.shell)
    can = bool(listed.buildable(suggestion.shell)) and made.items() <= suggestion.shell.items()
    yield from compared(
        (f"suggested {suggestion.shell} can be built", True, can),
        (f"price of suggested {suggestion.shell}", suggestion.price, listed.prices[whole]),
        (f"verdicts on suggested {made}", suggestion.answer.verdicts, listed.verdicts(made)),
    )


def _nearest(found: Suggestions, asked: Asked, wish: tuple[str, str] | None, listed: Listed) -> Iterator[Difference]:
    """Where something has to change: the first suggestion changes as few answers as can be, the reader's own first."""
    granted = dict((wish,)) if wish else {}
    if listed.buildable({**asked.specification.choices(), **granted}):
        return
    answers = {option: taken for option, taken in asked.specification.answers.items() if option not in granted}
    least = min((_changed(answers, listed.all[i]) for i in listed.buildable(granted)), default=None)
    first = _changed(answers, found.nearest[0].shell) if found.nearest else None
    yield from compared((f"answers changed by the first suggestion, wish {wish}", first, least))


def _changed(answers: Mapping[str, Taken], shell: Made) -> tuple[int, int]:
    other = [taken.origin for option, taken in answers.items() if shell[option] != taken.choice]
    return other.count(Origin.CHOSEN), other.count(Origin.USUAL)
