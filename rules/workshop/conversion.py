"""From a shell as it is to the one that is wanted: what differs, and how each difference can still be taken. Pure.

Read off the book's table of what may still change, by the points that the shell has come into.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from rules.donor.resolve import domains_of
from rules.making import Operation
from rules.model import Allowed, Book, LateChange
from rules.schedule.days import route_days
from rules.specification import Donor
from rules.workshop.late import UNSAID, hardest, rows_for, taken_at
from rules.workshop.work import OpenOptions, work_of


@dataclass(frozen=True, slots=True)
class Difference:
    """`has` of the shell, `wanted` instead. NO: the shell keeps what it has."""

    option: str
    has: str
    wanted: str
    taken: Allowed


@dataclass(frozen=True, slots=True)
class Conversion:
    """`becomes`: option → choice once all is changed that can be; `days`: working days that the changes add.

    `work`: operations that the shell needs by it and did not before; `undone`: those that it no longer has.
    """

    differences: tuple[Difference, ...]
    becomes: Mapping[str, str]
    days: int
    work: tuple[Operation, ...]
    undone: tuple[Operation, ...]

    @property
    def kept(self) -> tuple[Difference, ...]:
        """What can't be changed any more."""
        return tuple(one for one in self.differences if one.taken is Allowed.NO)

    @property
    def changed(self) -> tuple[Difference, ...]:
        return tuple(one for one in self.differences if one.taken is not Allowed.NO)

    @property
    def hardest(self) -> Allowed:
        """How the changes are taken that are made: by the one that asks most."""
        return hardest(one.taken for one in self.changed)


def conversion(
    book: Book, has: Mapping[str, str], wanted: Mapping[str, str], donor: Donor, come: Sequence[str]
) -> Conversion | None:
    """`come`: the points that the shell has come into. None: the book names other options or choices than it has."""
    domains = domains_of(book)
    if any(has.get(option) not in domains[option] or wanted.get(option) not in domains[option] for option in domains):
        return None
    differences = tuple(_differences(book, has, wanted, come))
    becomes = {one.option: one.wanted for one in differences if one.taken is not Allowed.NO}
    made = {**has, **becomes}
    after, before = _operations(book, donor, made), _operations(book, Donor(), has)
    work = tuple(one for id_, one in after.items() if id_ not in before)
    undone = tuple(one for id_, one in before.items() if id_ not in after)
    return Conversion(differences, made, _days(book, has, made, donor), work, undone)


def _differences(
    book: Book, has: Mapping[str, str], wanted: Mapping[str, str], come: Sequence[str]
) -> Iterable[Difference]:
    """What stays because it can't be changed keeps what is only ever changed together with it."""
    differ = [option.id for option in book.options if has[option.id] != wanted[option.id]]
    rows = rows_for(book, has, Donor())
    taken = {option: _taken(rows, option, come) for option in differ}
    stay = {option for option in differ if taken[option] is Allowed.NO}
    with_it = {other for change in book.late_changes if stay & set(change.options[:1]) for other in change.options}
    for option in differ:
        yield Difference(option, has[option], wanted[option], Allowed.NO if option in with_it else taken[option])


def _taken(rows: Iterable[LateChange], option: str, come: Sequence[str]) -> Allowed:
    """Where several rows speak of it, as the hardest of them."""
    said = [taken_at(row, come) for row in rows if option in row.options]
    return hardest(said) if said else UNSAID


def _days(book: Book, has: Mapping[str, str], becomes: Mapping[str, str], donor: Donor) -> int:
    """Of the additions that hold by the changes and did not before."""
    before = {added.id for stage in route_days(book, has, Donor()).stages for added in stage.added}
    after = route_days(book, becomes, donor)
    return sum(added.days for stage in after.stages for added in stage.added if added.id not in before)


def _operations(book: Book, donor: Donor, settled: Mapping[str, str]) -> dict[str, Operation]:
    try:
        work = work_of(book, donor, settled)
    except OpenOptions:
        return {}
    return {task.operation.id: task.operation for task in work.tasks}
