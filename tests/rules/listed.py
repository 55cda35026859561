"""The engine's answer worked out the slow way: list every complete specification with itertools.product and look.

Shares no code with the engine but the data types and the price of one line; conditions are read here once more, as the
book writes them (three-valued: a fact of the donor that isn't known makes an atom neither true nor false).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, product
from typing import Any as Anything

from rules.answer import Depends, PriceFrom, State, Verdict
from rules.condition import (
    All,
    Among,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
)
from rules.model import Book, Kind, Role, ToolCondition
from rules.money.price import Tariff, line_net
from rules.specification import Donor, Origin, Specification

Made = Mapping[str, str]


@dataclass
class Listed:
    """One book, tool state, donor and tariff."""

    book: Book
    states: Mapping[str, ToolCondition]
    donor: Donor
    tariff: Tariff

    def __post_init__(self) -> None:
        self.domains = {option.id: [choice.id for choice in option.choices] for option in self.book.options}

    def list_all(self) -> Listed:
        """List every complete specification; only for a small book."""
        self.all = [dict(zip(self.domains, row, strict=True)) for row in product(*self.domains.values())]
        self.breaches = [frozenset(self._breaches(made)) for made in self.all]
        self.gated = [self.is_gated(made) for made in self.all]
        self.prices = [self._price(made) for made in self.all]
        return self

    # what the book says of a complete specification

    def says(self, condition: Condition, made: Made) -> bool | None:
        match condition:
            case Is(option, choices):
                return made[option] in choices
            case Among(options, rows):
                return tuple(made[option] for option in options) in rows
            case IsUsual(option):
                return made[option] == self.usual(option, made)
            case SeriesAsDonor():
                return None if self.donor.series is None else made[self.book.roles[Role.SERIES]] == self.donor.series
            case Not(part):
                inner = self.says(part, made)
                return None if inner is None else not inner
            case All(parts):
                return _least(self.says(part, made) for part in parts)
            case Any(parts):
                opposite = _least(self.says(Not(part), made) for part in parts)
                return None if opposite is None else not opposite
            case _:
                return self._donor_says(condition)

    def _donor_says(self, atom: Condition) -> bool | None:
        donor = self.donor
        match atom:
            case DonorSeries(series):
                return None if donor.series is None else donor.series in series
            case DonorGearbox(gearboxes):
                return None if donor.gearbox is None else donor.gearbox in gearboxes
            case DonorNumber(series, low, high):
                if donor.series is not None and donor.series != series:
                    return False
                if donor.series is None or donor.number is None:
                    return None
                return (low is None or donor.number >= low) and (high is None or donor.number <= high)
        raise AssertionError(atom)

    def usual(self, option: str, made: Made) -> str:
        keys = [self.book.roles[r] for r in (Role.SERIES, Role.MARKET, Role.BODY) if r in self.book.roles]
        found = made[option] if option in keys else self.domains[option][0]
        for row in self.book.usual:
            if option in row.values and self.says(row.when, made):
                found = row.values[option]
        return found

    def _breaches(self, made: Made) -> Iterator[str]:
        for rule in self.book.rules:
            if Kind.NEVER in rule.kinds and self.says(rule.when, made):
                yield rule.id
            if Kind.NEEDS in rule.kinds and rule.needs and self.says(All((rule.when, Not(rule.needs))), made):
                yield rule.id
        for tool in self.book.tools:
            silent = tool.speaks_as or tool.stands_in
            if self.states.get(tool.id) is ToolCondition.LOST and not silent and self.says(tool.needed_for, made):
                yield tool.id

    def is_gated(self, made: Made) -> bool:
        gates = (rule for rule in self.book.rules if rule.kinds & {Kind.PART, Kind.APPROVAL})
        return any(self.says(rule.when, made) for rule in gates)

    def _price(self, made: Made) -> int | None:
        held = [adjustment for adjustment in self.book.adjustments if self.says(adjustment.when, made)]
        nets = [line_net(line, held, self.tariff) for line in self.book.lines if self.says(line.when, made)]
        return None if None in nets else sum(net.net for net in nets if net is not None)

    # what that means for a partial one

    def completions(self, made: Made) -> list[int]:
        """Indexes of all complete specifications that agree, buildable or not."""
        return [i for i, full in enumerate(self.all) if made.items() <= full.items()]

    def buildable(self, made: Made) -> list[int]:
        return [i for i in self.completions(made) if not self.breaches[i]]

    def outright(self, made: Made) -> list[int]:
        return [i for i in self.buildable(made) if not self.gated[i]]

    def price_from(self, made: Made) -> PriceFrom:
        best = self.outright(made) or self.buildable(made)
        return PriceFrom(self._least(best), bool(self.outright(made)))

    def difference(self, made: Made, option: str, name: str) -> int | None:
        """Of price from there and here; where but one of them is outright, over all shells with and without `name`."""
        here, there = self.price_from(made), self.price_from({**made, option: name})
        before, after = here.amount, there.amount
        if here.outright != there.outright:
            after = self._least(self.buildable({**made, option: name}))
            before = self._least(self.buildable(made) if option in made else self._without_gates(made, option))
        return None if before is None or after is None else after - before

    def _without_gates(self, made: Made, option: str) -> list[int]:
        """All shells with those choices of the option that need neither part nor approval for themselves."""
        beside = [{**made, option: name} for name in self.domains[option] if self.outright({**made, option: name})]
        return [i for each in beside for i in self.buildable(each)]

    def _least(self, shells: Iterable[int]) -> int | None:
        return min((price for i in shells if (price := self.prices[i]) is not None), default=None)

    def settled(self, made: Made) -> dict[str, str]:
        left = [self.all[i] for i in self.buildable(made)]
        if not left:
            return dict(made)
        return {option: left[0][option] for option in self.domains if len({full[option] for full in left}) == 1}

    def depends(self, made: Made) -> Depends:
        """By what is settled alone: whatever the open options turn out to be."""
        settled = self.settled(made)
        full = [self.all[i] for i in self.completions(settled)]
        heard: dict[str, list[str]] = {"parts": [], "approvals": [], "cautions": [], "holds": [], "tools": []}
        names = {Kind.PART: "parts", Kind.APPROVAL: "approvals", Kind.CAUTION: "cautions", Kind.HOLD: "holds"}
        for rule in self.book.rules:
            for kind, name in names.items():
                if kind in rule.kinds and all(self.says(rule.when, each) for each in full):
                    heard[name].append(rule.id)
        for tool in self.book.tools:
            down = self.states.get(tool.id) is ToolCondition.DOWN
            if down and all(self.says(tool.needed_for, each) for each in full):
                heard["tools"].append(tool.id)
        return Depends(**{name: tuple(ids) for name, ids in heard.items()})

    def causes(self, made: Made) -> tuple[tuple[str, ...], ...]:
        """Smallest sets of ids of which every completion breaks one, by trying all sets."""
        ids = [rule.id for rule in self.book.rules] + [tool.id for tool in self.book.tools]
        broken = {self.breaches[i] for i in self.completions(made)}
        found: list[tuple[str, ...]] = []
        for size in range(1, len(ids) + 1):
            for names in combinations(ids, size):
                minimal = not any(set(less) <= set(names) for less in found)
                if minimal and all(breach & set(names) for breach in broken):
                    found.append(names)
        return tuple(found)

    def state(self, specification: Specification, option: str, choice: str) -> State:
        made = specification.choices()
        open_ = [c for c in self.domains[option] if self.buildable({**made, option: c})]
        if choice not in open_:
            return State.CLOSED
        taken = specification.answers.get(option)
        if len(open_) > 1 if taken is None else taken.choice != choice:
            return State.OPEN
        if self.is_usual(made, option, choice):
            return State.USUAL
        if taken is not None and taken.origin is Origin.CHOSEN:
            return State.CHOSEN
        own = self.buildable(specification.own())
        if taken is None or {self.all[i][option] for i in own} == {choice}:
            return State.FORCED
        told = any(self.is_usual(made, option, each) for each in self.domains[option])
        return State.CHOSEN if told else State.USUAL

    def verdicts(self, made: Made) -> tuple[Verdict, ...]:
        if not self.buildable(made):
            return (Verdict.CANT,)
        depends = self.depends(made)
        once = (Verdict.ONCE,) if depends.parts or depends.approvals else ()
        return (*once, Verdict.NOT_AS_HAD if self._differs(self.settled(made)) else Verdict.AS_HAD)

    def _differs(self, settled: Made) -> bool:
        roles = self.book.roles
        series = roles.get(Role.SERIES)
        donors = {series: self.donor.series} if series and self.donor.series in self.domains[series] else {}
        keys = [roles[role] for role in (Role.SERIES, Role.MARKET, Role.BODY) if role in roles]
        asked: dict[Anything, Anything] = {key: settled[key] for key in keys if key in settled}
        originals = [self.all[i] for i in self.completions(asked | donors)]
        compared = [
            o.id
            for o in self.book.options
            if o.structural and o.id not in (roles.get(Role.BODY), roles.get(Role.MARKET))
        ]
        had = {option: {self.usual(option, each) for each in originals} for option in compared}
        return any(option in settled and settled[option] not in had[option] for option in compared)

    def is_usual(self, made: Made, option: str, choice: str) -> bool:
        roles = [self.book.roles[r] for r in (Role.SERIES, Role.MARKET, Role.BODY) if r in self.book.roles]
        if option in roles:
            return option == self.book.roles[Role.SERIES] and choice == self.donor.series
        settled = self.settled(made)
        keys = {key: settled[key] for key in roles if key in settled}
        return {self.usual(option, self.all[i]) for i in self.completions(keys)} == {choice}


def _least(truths: Iterable[bool | None]) -> bool | None:
    """False before unknown before True."""
    return min(truths, key=lambda truth: {False: 0, None: 1, True: 2}[truth], default=True)
