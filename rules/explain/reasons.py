"""Why not, in the reader's own terms: the smallest sets of his answers *and* rules that can't hold together.

Beside `causes`, which doubts the rules alone. Nothing in a reason can be dropped: the answers and rules that it names
already clash, any fewer don't. Data only: the words are made elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rules.engine.clash import CAP
from rules.engine.groups import Group
from rules.engine.view import Ready

#: An option and one of its choices.
Answered = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Reason:
    """`answers` in the book's order and `rules` in the book's order clash; with `wish` too, where there is one.

    `wish` None: the answers clash whether or not it is granted. No answer in it means a dead choice (or, without a
    wish, a book that nothing can satisfy).
    """

    answers: tuple[Answered, ...]
    rules: tuple[str, ...]
    wish: Answered | None = None


#: Reasons, and whether there are more than were listed.
Reasons = tuple[tuple[Reason, ...], bool]


def reasons(prepared: Ready, made: Mapping[str, str], wish: Answered | None = None) -> Reasons:
    """Every smallest reason why the choices made, or the wish beside the other answers, can't be built.

    Fewest answers first, then fewest rules, then the book's order; at most 20. Empty where it can be built. `made`:
    option → choice, all known to the book; `wish`: an option and a choice, which takes the place of an answer.
    """
    others = {option: choice for option, choice in made.items() if wish is None or option != wish[0]}
    found = [_in_group(prepared, group, others, wish) for group in prepared.groups]
    ranked = sorted((reason for some, _ in found for reason in some), key=lambda reason: _rank(prepared, reason))
    return tuple(ranked[:CAP]), len(ranked) > CAP or any(more for _, more in found)


def _in_group(prepared: Ready, group: Group, others: Mapping[str, str], wish: Answered | None) -> Reasons:
    """Rules come before answers, for what comes last is dropped first: a reason leans on rules rather than answers."""
    answers = group.answers(prepared.layout.mask(others))
    wished = list(group.answers(prepared.layout.mask(dict((wish,))))) if wish is not None else []
    clashes, more = group.clashes(wished, [*group.switches(), *answers])
    named: list[str | Answered] = [*group.rules, *answers.values()]
    return tuple(_reason(prepared, group, [named[place] for place in found], wished, wish) for found in clashes), more


def _reason(
    prepared: Ready, group: Group, named: list[str | Answered], wished: list[int], wish: Answered | None
) -> Reason:
    rules = tuple(name for name in named if isinstance(name, str))
    answers = tuple(name for name in named if not isinstance(name, str))
    return Reason(answers, rules, wish if wished and _needs_wish(prepared, group, answers, rules) else None)


def _needs_wish(prepared: Ready, group: Group, answers: tuple[Answered, ...], rules: tuple[str, ...]) -> bool:
    switches = [group.rules.index(rule) + 1 for rule in rules]
    return not group.clash([*switches, *group.answers(prepared.layout.mask(dict(answers)))])


def _rank(prepared: Ready, reason: Reason) -> tuple[int, int, list[int], list[int]]:
    places = {option: i for i, option in enumerate(prepared.layout.options)}
    order = prepared.causes.places
    return (
        len(reason.answers),
        len(reason.rules),
        [places[option] for option, _ in reason.answers],
        [order[rule] for rule in reason.rules],
    )
