"""Why an option stands as it does: chosen, left alone by other answers, or what the original car had.

Data only. What it counts as is `standing`'s to say; what leaves a choice alone is asked of the solver, and what was
usual is read from the book's table.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from itertools import combinations

from rules.condition import All, Any, Condition, DonorGearbox, DonorNumber, DonorSeries, Is, Not, fold
from rules.donor.resolve import DonorAtom
from rules.donor.usual import donor_fact, key_options, usual_choice, usual_choices
from rules.engine.groups import Group
from rules.engine.standing import standing_of
from rules.engine.view import Ready
from rules.explain.reasons import Answered
from rules.explain.refusal import Against, Given, against, given
from rules.model import Book
from rules.specification import Donor, Specification


class Why(Enum):
    """As `State` has it; OPEN: nothing decides it yet."""

    CHOSEN = "chosen"
    FORCED = "forced"
    USUAL = "usual"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class DonorTold:
    """A fact of the donor car that the table asked for. `holds` None: not established."""

    atom: DonorAtom
    holds: bool | None


@dataclass(frozen=True, slots=True)
class Original:
    """Which of the key answers made a choice usual, in the order series, market, body, and which donor facts told.

    Both empty: every original car had it.
    """

    keys: tuple[Answered, ...]
    donor: tuple[DonorTold, ...]


@dataclass(frozen=True, slots=True)
class Grounds:
    """`choice` None on an open option. `answers` and `against`: one smallest set of them that leaves nothing else.

    They stand on FORCED, and on USUAL where the usual choice is the only one left besides. `original`: on USUAL, what
    made it so; None where the keys of the table aren't all answered.
    """

    option: str
    choice: str | None
    why: Why
    answers: tuple[Given, ...] = ()
    against: tuple[Against, ...] = ()
    original: Original | None = None


def why(prepared: Ready, specification: Specification, donor: Donor, option: str) -> Grounds:
    """Why the option stands as it does; KeyError where the book hasn't it. All names are known to the book.

    What the reader's own answers leave alone comes before what the taken-over ones add; a clash leaves nothing.
    """
    prepared.book.option(option)
    settled = prepared.layout.made(prepared.alone(specification.choices()))
    left = _only(prepared, specification, option) if settled else None
    taken = specification.answers.get(option)
    choice = taken.choice if taken is not None else None if left is None else left.choice
    if choice is None:
        return Grounds(option, None, Why.OPEN)
    usual = prepared.original.usual(settled or specification.choices()).get(option)
    found = Grounds(option, choice, Why(standing_of(choice, usual, taken, only=left is not None).value))
    if left is not None and found.why in (Why.FORCED, Why.USUAL):
        found = replace(found, answers=left.answers, against=left.against)
    return _as_had(prepared.book, specification, donor, found) if found.why is Why.USUAL else found


def _only(prepared: Ready, specification: Specification, option: str) -> Grounds | None:
    """The choice that the other answers leave alone, with a reason; all answers together can be built."""
    taken = specification.answers.get(option)
    made = [specification.own()] if taken is not None else [specification.own(), specification.choices()]
    found = (_forced(prepared, specification, answers, option) for answers in made)
    return next((each for each in found if each is not None), None)


def _forced(prepared: Ready, specification: Specification, made: Mapping[str, str], option: str) -> Grounds | None:
    """The choice that the other answers leave alone, if they leave one; what was taken beside them is that one."""
    others = {name: choice for name, choice in made.items() if name != option}
    left = _left(prepared, others, option)
    if len(left) != 1:
        return None
    answers, rules = _smallest(prepared, others, (option, left[0]))
    told = given(prepared, specification, answers)
    return Grounds(option, left[0], Why.FORCED, told, against(prepared.book, rules))


def _left(prepared: Ready, others: Mapping[str, str], option: str) -> list[str]:
    """The choices of the option that can be taken beside the other answers."""
    made = prepared.layout.mask(others)
    standing = {group: [*group.switches(), *group.answers(made)] for group in prepared.groups}
    if any(group.clash(literals) for group, literals in standing.items()):
        return []
    home, choices = _group_of(prepared, option), prepared.layout.domains[option]
    if home is None:
        return list(choices)
    literals = [_literal(prepared, home, (option, choice)) for choice in choices]
    return [c for c, literal in zip(choices, literals, strict=True) if not home.clash([*standing[home], literal])]


def _group_of(prepared: Ready, option: str) -> Group | None:
    """None: no rule names it."""
    return next((group for group in prepared.groups if option in group.options), None)


def _literal(prepared: Ready, group: Group, answered: Answered) -> int:
    (literal,) = group.answers(prepared.layout.mask(dict((answered,))))
    return literal


def _smallest(prepared: Ready, others: Mapping[str, str], answered: Answered) -> tuple[list[Answered], list[str]]:
    """The smallest set of answers and rules, fewest answers first, against taking anything else."""
    group = _group_of(prepared, answered[0])
    if group is None or len(prepared.layout.domains[answered[0]]) == 1:
        return [], []
    answers = group.answers(prepared.layout.mask(others))
    literals = [*group.switches(), *answers]
    found, _ = group.clashes([-_literal(prepared, group, answered)], literals)
    rules = len(group.rules)
    best = min(found, key=lambda places: (sum(place >= rules for place in places), len(places), places))
    named = list(answers.values())
    return [named[p - rules] for p in best if p >= rules], [group.rules[p] for p in best if p < rules]


def _as_had(book: Book, specification: Specification, donor: Donor, found: Grounds) -> Grounds:
    """With what the table says for the keys answered; without them nothing can be told of the table."""
    made = specification.choices()
    keys = {key: made[key] for key in key_options(book) if key in made}
    known = len(keys) == len(key_options(book)) and usual_choice(book, found.option, keys, donor) == found.choice
    return replace(found, original=original(book, found.option, keys, donor)) if known else found


def original(book: Book, option: str, keys: Mapping[str, str], donor: Donor) -> Original:
    """What made the usual choice of `option` usual, for `keys` (every key option → choice)."""
    return Original(_telling_keys(book, option, keys, donor), tuple(dict.fromkeys(_facts(book, option, keys, donor))))


def _telling_keys(book: Book, option: str, keys: Mapping[str, str], donor: Donor) -> tuple[Answered, ...]:
    """The fewest key answers that leave the usual choice the same whatever the others are."""
    sizes = range(len(keys) + 1)
    some = (dict(part) for size in sizes for part in combinations(keys.items(), size))
    return next(tuple(part.items()) for part in some if len(usual_choices(book, option, part, donor)) == 1)


def _facts(book: Book, option: str, keys: Mapping[str, str], donor: Donor) -> Iterator[DonorTold]:
    """What the row that spoke asked of the donor car, and later rows that would have said otherwise."""
    usual = usual_choice(book, option, keys, donor)
    for row in reversed(book.usual):
        if option in row.values and option not in keys and _holds(row.when, keys, None) is not False:
            spoke = _holds(row.when, keys, donor) is True
            if spoke or row.values[option] != usual:
                yield from (DonorTold(atom, donor_fact(atom, donor)) for atom in _donor_atoms(row.when))
            if spoke:
                return


def _holds(when: Condition, keys: Mapping[str, str], donor: Donor | None) -> bool | None:
    """Whether the row speaks of these keys; None where that hangs on the donor car (None: any)."""
    match when:
        case Is(option, choices):
            return keys[option] in choices
        case Not(part):
            inner = _holds(part, keys, donor)
            return None if inner is None else not inner
        case All(parts) | Any(parts):
            return fold((_holds(part, keys, donor) for part in parts), decisive=isinstance(when, Any))
        case DonorSeries() | DonorNumber() | DonorGearbox():
            return None if donor is None else donor_fact(when, donor)
        case _:
            raise TypeError(f"the usual table can't speak of {when!r}")


def _donor_atoms(when: Condition) -> Iterator[DonorAtom]:
    match when:
        case DonorSeries() | DonorNumber() | DonorGearbox():
            yield when
        case Not(part):
            yield from _donor_atoms(part)
        case All(parts) | Any(parts):
            for part in parts:
                yield from _donor_atoms(part)
