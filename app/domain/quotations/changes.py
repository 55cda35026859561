"""What changed between two revisions of a quotation, as data: for the change list that screen and paper show alike.

Pure, and without a word: ids and amounts only. `changes_between` compares what each revision comes to (`Facts`), never
how it was typed, so that an answer that was taken over for the customer is listed as well as one that he gave.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from itertools import chain
from typing import Generic, TypeVar

from app.domain.quotations.quotation import DeliveryPlace
from rules.answer import Depends

T = TypeVar("T")

NEEDS_NOTHING = Depends()

#: parts, approvals, cautions, holds, tools.
SORTS = tuple(sort.name for sort in fields(Depends))

#: How many answers differ so far, and which lines found no partner; None where so few lines can't be paired so.
Tally = tuple[int, tuple[int, ...]] | None


@dataclass(frozen=True, slots=True)
class Moved(Generic[T]):
    """A fact then and now; the same twice where it stayed."""

    before: T
    after: T

    @property
    def stayed(self) -> bool:
        return self.before == self.after


@dataclass(frozen=True, slots=True)
class Days:
    """Ready between so many working days after the last gate opens."""

    from_days: int
    to_days: int


@dataclass(frozen=True, slots=True)
class CaseSum:
    """What is payable under one tax case (`kind` as in rules.totals.CaseTotal), whole minor units."""

    kind: str
    without_tax: int
    with_tax: int
    deposit: int


@dataclass(frozen=True, slots=True)
class Sums:
    """More than one case where a person must decide which it is."""

    currency: str
    cases: tuple[CaseSum, ...]


@dataclass(frozen=True, slots=True)
class LineFacts:
    """`settled`: option → choice; `net`: of one shell before tax, None where not priced; `ready` None: no figure."""

    quantity: int
    settled: Mapping[str, str]
    depends: Depends = NEEDS_NOTHING
    net: int | None = None
    ready: Days | None = None


@dataclass(frozen=True, slots=True)
class Facts:
    """What a revision comes to. `sums` None where it has no total; `extras`: id → quantity; `donor` as typed."""

    letter: str
    book: int
    price_list: str
    place: DeliveryPlace
    lines: tuple[LineFacts, ...]
    extras: Mapping[str, int]
    sums: Sums | None
    donor: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class AnswerChange:
    """A side that is None was not settled there, or the book had no such option."""

    option: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class LineChange:
    """A line that changed, came or went. `number`: its number from 1, None on the side where it is not.

    `quantity` is 0 there. `answers` in the order of the settled options now; empty where the line came or went.
    `come`, `gone`: what the shell depends on newly, or no longer. `net` of one shell before tax.
    """

    number: Moved[int | None]
    quantity: Moved[int]
    answers: tuple[AnswerChange, ...]
    come: Depends
    gone: Depends
    net: Moved[int | None]
    ready: Moved[Days | None]

    @property
    def came(self) -> bool:
        return self.number.before is None

    @property
    def went(self) -> bool:
        return self.number.after is None


@dataclass(frozen=True, slots=True)
class ExtraChange:
    """0 on the side where it is not sold."""

    extra: str
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class Changes:
    """Everything that may have moved since `against`, the letter of the revision compared with.

    `lines`: only those in which anything changed but their place. `come`, `gone`: over all lines together, so that a
    part that another line still asks for is in neither. `ready`: of the slowest line.
    """

    against: str
    lines: tuple[LineChange, ...]
    extras: tuple[ExtraChange, ...]
    come: Depends
    gone: Depends
    book: Moved[int]
    price_list: Moved[str]
    place: Moved[DeliveryPlace]
    sums: Moved[Sums | None]
    ready: Moved[Days | None]
    donor: Moved[str]
    note: Moved[str]

    @property
    def any(self) -> bool:
        """Whether anything changed that a customer would see; a rule book's number alone is nothing to him."""
        moved = (self.price_list, self.place, self.sums, self.ready, self.donor, self.note)
        return bool(self.lines or self.extras) or not all(one.stayed for one in moved)


def changes_between(before: Facts, after: Facts) -> Changes:
    """What is otherwise in `after` than it was in `before`."""
    needed, needs = _together(before.lines), _together(after.lines)
    return Changes(
        against=before.letter,
        lines=tuple(_line_changes(before.lines, after.lines)),
        extras=tuple(_extra_changes(before.extras, after.extras)),
        come=_without(needs, needed),
        gone=_without(needed, needs),
        book=Moved(before.book, after.book),
        price_list=Moved(before.price_list, after.price_list),
        place=Moved(before.place, after.place),
        sums=Moved(before.sums, after.sums),
        ready=Moved(slowest(before.lines), slowest(after.lines)),
        donor=Moved(before.donor, after.donor),
        note=Moved(before.note, after.note),
    )


def pairs(before: Sequence[LineFacts], after: Sequence[LineFacts]) -> tuple[tuple[int | None, int | None], ...]:
    """Which line then is which now, by position from 0; None: it came, or went.

    As many as can be are paired, in their order, so that the fewest answers differ: a line taken out of the middle is
    told as that, and not as a change of every line that follows.
    """
    if len(before) > len(after):
        return tuple((then, now) for now, then in pairs(after, before))
    skipped = _fewest(before, after)
    places = iter(range(len(before)))
    return tuple((None if now in skipped else next(places), now) for now in range(len(after)))


def _fewest(few: Sequence[LineFacts], many: Sequence[LineFacts]) -> frozenset[int]:
    """Positions in `many` that find no partner, where differences are fewest; the last ones among equals."""
    best: list[Tally] = [(0, ()), *(None for _ in few)]
    for at, line in enumerate(many):
        paired = [None, *(_pair(tally, then, line) for tally, then in zip(best, few, strict=False))]
        best = [_cheaper(_skip(tally, at), pair) for tally, pair in zip(best, paired, strict=True)]
    found = best[-1]
    return frozenset(found[1] if found else ())


def _skip(so_far: Tally, at: int) -> Tally:
    return None if so_far is None else (so_far[0], (*so_far[1], at))


def _pair(so_far: Tally, then: LineFacts, now: LineFacts) -> Tally:
    return None if so_far is None else (so_far[0] + _differ(then, now), so_far[1])


def _cheaper(skip: Tally, pair: Tally) -> Tally:
    if skip is None or pair is None:
        return pair if skip is None else skip
    return skip if skip[0] <= pair[0] else pair


def _differ(then: LineFacts, now: LineFacts) -> int:
    return len(dict(then.settled).items() ^ dict(now.settled).items())


def _line_changes(before: Sequence[LineFacts], after: Sequence[LineFacts]) -> Iterator[LineChange]:
    for then, now in pairs(before, after):
        was, line = None if then is None else before[then], None if now is None else after[now]
        if was != line:
            yield _line_change((then, was), (now, line))


def _line_change(before: tuple[int | None, LineFacts | None], after: tuple[int | None, LineFacts | None]) -> LineChange:
    (then, was), (now, line) = before, after
    needed, needs = _depends(was), _depends(line)
    return LineChange(
        number=Moved(None if then is None else then + 1, None if now is None else now + 1),
        quantity=Moved(was.quantity if was else 0, line.quantity if line else 0),
        answers=tuple(_answer_changes(was.settled, line.settled)) if was and line else (),
        come=_without(needs, needed),
        gone=_without(needed, needs),
        net=Moved(was.net if was else None, line.net if line else None),
        ready=Moved(was.ready if was else None, line.ready if line else None),
    )


def _answer_changes(before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[AnswerChange]:
    for option in dict.fromkeys((*after, *before)):
        if before.get(option) != after.get(option):
            yield AnswerChange(option, before.get(option), after.get(option))


def _extra_changes(before: Mapping[str, int], after: Mapping[str, int]) -> Iterator[ExtraChange]:
    for extra in dict.fromkeys((*after, *before)):
        if before.get(extra, 0) != after.get(extra, 0):
            yield ExtraChange(extra, before.get(extra, 0), after.get(extra, 0))


def _depends(line: LineFacts | None) -> Depends:
    return NEEDS_NOTHING if line is None else line.depends


def _together(lines: Sequence[LineFacts]) -> Depends:
    """What any of the lines depends on, each once."""
    return Depends(**{sort: tuple(dict.fromkeys(chain(*_each(lines, sort)))) for sort in SORTS})


def _each(lines: Sequence[LineFacts], sort: str) -> Iterator[tuple[str, ...]]:
    return (getattr(line.depends, sort) for line in lines)


def _without(these: Depends, those: Depends) -> Depends:
    return Depends(**{sort: _less(getattr(these, sort), getattr(those, sort)) for sort in SORTS})


def _less(these: tuple[str, ...], those: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(one for one in these if one not in those)


def slowest(lines: Sequence[LineFacts]) -> Days | None:
    """When the last of the lines is ready; None where there is a figure for none."""
    known = [line.ready for line in lines if line.ready is not None]
    return max(known, key=lambda days: (days.to_days, days.from_days)) if known else None
