"""One specification looked at twice: as it was answered and priced, and as it is by another book, tools or terms.

Pure, and without a word: ids and amounts only. The specification itself is the same on both sides; what changed between
two revisions is told by `changes`. Nothing is altered by looking: what follows from it a person decides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from app.domain.quotations.changes import SORTS, Days, Facts, LineFacts, Moved, Sums, slowest
from app.domain.quotations.quotation import Standing
from rules.answer import Answer, Cause, OptionAnswer, Verdict
from rules.money.price import ShellPrice
from rules.money.totals import ExtraNet
from rules.specification import Origin, Specification

#: The gravest first.
GRAVITY = tuple(Verdict)


@dataclass(frozen=True, slots=True)
class Stood:
    """How an answered option stands.

    `closed`: it is named in a reason why the shell can't be built; `usual`: not taken over as usual while it isn't.
    """

    choice: str | None
    closed: bool
    usual: bool


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """An answer that stands otherwise than it did; None on the side whose book has no such option or choice.

    `typed`: the choice that was answered, None where it was left open and only followed.
    """

    option: str
    typed: str | None
    before: Stood | None
    after: Stood | None


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A rule, or a tool that is down, that the shell depends on on either side. `sort`: one of SORTS."""

    id: str
    sort: str
    before: bool
    after: bool

    @property
    def moved(self) -> bool:
        return self.before != self.after


@dataclass(frozen=True, slots=True)
class Priced:
    """`listed`: the list's amount; `net` after adjustment and discount. Both None: not priced."""

    listed: int | None
    net: int | None


@dataclass(frozen=True, slots=True)
class PriceRow:
    """A price line of one shell, or an extra with all its pieces; None on the side that has no such line."""

    id: str
    before: Priced | None
    after: Priced | None

    @property
    def moved(self) -> bool:
        return self.before != self.after


@dataclass(frozen=True, slots=True)
class Looked:
    """A line looked at once. `answer` None: it names what that book hasn't. `price` of one shell.

    `against`: options whose answers are named in a reason why it can't be built.
    """

    specification: Specification
    answer: Answer | None
    price: ShellPrice | None
    facts: LineFacts
    against: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class LineThenAndNow:
    """A line, from 1. `come`, `gone`: reasons why it can't be built, new ones and those that fell away."""

    line: int
    verdict: Moved[Verdict | None]
    answers: tuple[AnswerRow, ...]
    rules: tuple[RuleRow, ...]
    come: tuple[Cause, ...]
    gone: tuple[Cause, ...]
    prices: tuple[PriceRow, ...]
    net: Moved[int | None]
    ready: Moved[Days | None]

    @property
    def moved(self) -> bool:
        stayed = self.verdict.stayed and self.net.stayed and self.ready.stayed
        rows = any(row.moved for row in self.rules) or any(row.moved for row in self.prices)
        return bool(not stayed or rows or self.answers or self.come or self.gone)


@dataclass(frozen=True, slots=True)
class ThenAndNow:
    """`sums` None on a side that has no total."""

    lines: tuple[LineThenAndNow, ...]
    extras: tuple[PriceRow, ...]
    sums: Moved[Sums | None]
    ready: Moved[Days | None] = field(default_factory=lambda: Moved(None, None))

    @property
    def moved(self) -> bool:
        """Whether anything is otherwise that customer, clerk or workshop would notice."""
        return not self.sums.stayed or any(line.moved for line in self.lines) or any(row.moved for row in self.extras)


def then_and_now(
    before: Sequence[Looked],
    after: Sequence[Looked],
    facts: Moved[Facts],
    extras: Moved[Sequence[ExtraNet]],
) -> ThenAndNow:
    """The same lines looked at twice, in their order."""
    lines = (_line(at, *pair) for at, pair in enumerate(zip(before, after, strict=True), start=1))
    return ThenAndNow(
        lines=tuple(lines),
        extras=tuple(_rows(_extras(extras.before), _extras(extras.after))),
        sums=Moved(facts.before.sums, facts.after.sums),
        ready=Moved(slowest(facts.before.lines), slowest(facts.after.lines)),
    )


def advice(standing: Standing, found: ThenAndNow) -> tuple[str, ...]:
    """What the desk does about it, as ids of sentences; nothing where nothing moved. The firm's table, read downwards.

    A draft is simply priced and answered anew. In date, an old price is honoured until it lapses, a lower one is the
    manager's choice; a tighter rule is honoured or withdrawn in writing. Lapsed or ended: quoted again.
    """
    if not found.moved:
        return ()
    match standing:
        case Standing.DRAFT:
            return ("draft",)
        case Standing.ISSUED:
            return tuple(_in_date(found))
        case Standing.ACCEPTED:
            return (*(one for one in _in_date(found) if one in ("tightened", "loosened")), "locked")
        case _:
            return ("again",)


def tightened(line: LineThenAndNow) -> bool:
    """Whether the shell can be built less easily than it could: graver, or waiting for more."""
    if line.verdict.before is None or line.verdict.after is None:
        return line.verdict.after is None
    graver = GRAVITY.index(line.verdict.after) < GRAVITY.index(line.verdict.before)
    more = any(row.after and not row.before for row in line.rules)
    return graver or more or bool(line.come)


def loosened(line: LineThenAndNow) -> bool:
    """Whether something that stood against it, or that it waited for, has fallen away."""
    fewer = any(row.before and not row.after for row in line.rules)
    return (fewer or bool(line.gone)) and not tightened(line)


def _in_date(found: ThenAndNow) -> Iterator[str]:
    if any(tightened(line) for line in found.lines):
        yield "tightened"
    if any(loosened(line) for line in found.lines):
        yield "loosened"
    change = _dearer(found)
    if change > 0:
        yield "dearer"
    if change < 0:
        yield "cheaper"


def _dearer(found: ThenAndNow) -> int:
    """By how much it would cost more now, before tax; 0 where either side has no total."""
    before, after = found.sums.before, found.sums.after
    if before is None or after is None or before.currency != after.currency:
        return 0
    return after.cases[0].without_tax - before.cases[0].without_tax


def _line(at: int, before: Looked, after: Looked) -> LineThenAndNow:
    causes = [() if one.answer is None else one.answer.causes for one in (before, after)]
    return LineThenAndNow(
        line=at,
        verdict=Moved(*(None if one.answer is None else one.answer.verdict for one in (before, after))),
        answers=tuple(_answers(before, after)),
        rules=tuple(_rules(before, after)),
        come=tuple(cause for cause in causes[1] if cause not in causes[0]),
        gone=tuple(cause for cause in causes[0] if cause not in causes[1]),
        prices=tuple(_rows(_prices(before.price), _prices(after.price))),
        net=Moved(before.facts.net, after.facts.net),
        ready=Moved(before.facts.ready, after.facts.ready),
    )


def _answers(before: Looked, after: Looked) -> Iterator[AnswerRow]:
    """Where one side could not be answered at all there is nothing to hold answer against answer."""
    if before.answer is None or after.answer is None:
        return
    were, are = _stood(before), _stood(after)
    for option in dict.fromkeys((*are, *were)):
        if were.get(option) != are.get(option):
            taken = after.specification.answers.get(option)
            yield AnswerRow(option, taken.choice if taken else None, were.get(option), are.get(option))


def _stood(looked: Looked) -> dict[str, Stood]:
    options = () if looked.answer is None else looked.answer.options
    return {option.option: _stands(option, looked) for option in options if option.settled is not None}


def _stands(option: OptionAnswer, looked: Looked) -> Stood:
    """Whether it is usual is looked at only where it was taken over as that: who chose it meant it, usual or not."""
    settled = next(choice for choice in option.choices if choice.choice == option.settled)
    taken = looked.specification.answers.get(option.option)
    as_usual = taken is not None and taken.origin is Origin.USUAL
    return Stood(settled.choice, option.option in looked.against, settled.usual if as_usual else True)


def _rules(looked: Looked, looked_again: Looked) -> Iterator[RuleRow]:
    """A shell that can't be built depends on nothing: there is no row then, but its causes are told."""
    if any(one.answer is None or one.answer.verdict is Verdict.CANT for one in (looked, looked_again)):
        return
    before, after = looked.facts.depends, looked_again.facts.depends
    for sort in SORTS:
        were, are = getattr(before, sort), getattr(after, sort)
        for rule in dict.fromkeys((*are, *were)):
            yield RuleRow(rule, sort, rule in were, rule in are)


def _rows(before: Mapping[str, Priced], after: Mapping[str, Priced]) -> Iterator[PriceRow]:
    for line in dict.fromkeys((*after, *before)):
        yield PriceRow(line, before.get(line), after.get(line))


def _prices(price: ShellPrice | None) -> dict[str, Priced]:
    if price is None:
        return {}
    priced = {line.line: Priced(line.listed, line.net) for line in price.lines}
    return priced | {line: Priced(None, None) for line in price.unpriced}


def _extras(extras: Sequence[ExtraNet]) -> dict[str, Priced]:
    return {extra.extra: Priced(extra.listed, extra.net) for extra in extras}
