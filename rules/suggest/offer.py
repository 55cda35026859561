"""Which shells to suggest: the nearest, one by one, each barring what would only say the same with more changes.

Nothing is worded here. Every suggestion is put to the engine again before it is handed out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rules.answer import Answer, Depends, State, Verdict
from rules.engine.ask import ask
from rules.engine.forest import Term
from rules.explain.nearest import Bar, Weights
from rules.money.price import Tariff
from rules.specification import Origin, Specification, Taken
from rules.suggest.suggestion import Beside, Change, Suggestion, Suggestions
from rules.suggest.surroundings import Shell, Surroundings
from rules.suggest.weight import sum_of, weights_of

#: Suggestions at most, `keep` apart.
LIMIT = 3


def suggest(
    around: Surroundings,
    specification: Specification,
    tariff: Tariff,
    wish: tuple[str, str] | None = None,
    limit: int = LIMIT,
) -> Suggestions:
    """Where the answers, with the `wish` (option, choice) among them, can't be built or stand only once: what can.

    The wish is never given up in `nearest` and `fill`. UnknownNames where the book hasn't one of the names.
    """
    asked = specification if wish is None else _with(specification, {wish[0]: Taken(wish[1])})
    now = ask(around.prepared, asked, tariff)
    if now.verdict not in (Verdict.CANT, Verdict.ONCE):
        return Suggestions(now)
    before = now if wish is None else ask(around.prepared, specification, tariff)
    stood = None if before.verdict is Verdict.CANT else specification
    return _Looking(around, asked, tariff, None if wish is None else wish[0], now, stood, before).suggestions(limit)


@dataclass(frozen=True, slots=True)
class _Found:
    """A whole shell, the options whose answers it changes, and the parts and approvals it needs."""

    shell: Shell
    changed: tuple[str, ...]
    gates: tuple[str, ...]


class _Looking:
    """One search. `now`: what the engine says of the answers asked about, the wish among them.

    `stood`: the answers that suggestions are held against, `before` what the engine says of them; None where even
    without the wish they can't be built.
    """

    def __init__(
        self,
        around: Surroundings,
        asked: Specification,
        tariff: Tariff,
        wished: str | None,
        now: Answer,
        stood: Specification | None,
        before: Answer,
    ) -> None:
        self.around, self.asked, self.tariff, self.wished, self.now = around, asked, tariff, wished, now
        self.domains = around.prepared.layout.domains
        self.answers = self._indexes(asked)
        self.hard = {o: k for o, k in self.answers.items() if o == wished}
        self.first = self._first()
        compiled = around.prepared.compiled
        self.weights = self._weights(compiled.buildable.emissions)
        self.outright = self._weights(compiled.outright.emissions)
        self.before = before.depends
        self.stood = None if stood is None else self._filled(self._indexes(stood)).shell

    def suggestions(self, limit: int) -> Suggestions:
        nearest = self._nearest(limit)
        fill = self._fill(nearest, limit - len(nearest))
        return Suggestions(
            asked=self.now,
            nearest=tuple(self._made(found, nearest[:place]) for place, found in enumerate(nearest)),
            fill=tuple(self._made(found, nearest) for found in fill),
            keep=self._keep(),
        )

    def _indexes(self, specification: Specification) -> dict[str, int]:
        return {option: self.domains[option].index(choice) for option, choice in specification.choices().items()}

    def _first(self) -> list[Bar]:
        """A shell that stands only once: what is suggested has to shed one of its gates."""
        gates = {*self.now.depends.parts, *self.now.depends.approvals}
        return [Bar(nodes=tuple(self.around.gate(gate) for gate in sorted(gates)))] if gates else []

    def _weights(self, emissions: Sequence[Sequence[Term]]) -> Weights:
        terms = list(dict.fromkeys(term for said in emissions for term in said))
        costs = self.around.costs(terms, self.tariff)
        return weights_of(self.domains, self.asked, self.wished, [sum_of([costs[t] for t in e]) for e in emissions])

    def _nearest(self, limit: int) -> list[_Found]:
        found: list[_Found] = []
        while len(found) < limit and (more := self._find([*self.first, *map(self._containing, found)])) is not None:
            found.append(more)
        return found

    def _fill(self, nearest: Sequence[_Found], room: int) -> list[_Found]:
        """Outright ones: nobody sends one more part, or waits for one more approval, only to have more changed."""
        found: list[_Found] = []
        while nearest and len(found) < room:
            bars = [self._same(other) for other in (*nearest, *found)]
            shell = self.around.outright.lightest(self.outright, self.hard, bars)
            if shell is None:
                break
            found.append(self._found(shell))
        return found

    def _find(self, bars: Sequence[Bar]) -> _Found | None:
        """The nearest shell clear of the bars. What is open is filled outright where that can be."""
        shell = self.around.buildable.lightest(self.weights, self.hard, bars)
        return None if shell is None else self._filled({o: shell[o] for o in self.answers}, bars)

    def _filled(self, answered: Shell, bars: Sequence[Bar] = ()) -> _Found:
        around = self.around
        shell = around.outright.lightest(self.outright, answered, bars) or around.buildable.lightest(
            self.weights, answered, bars
        )
        assert shell is not None, "what was found can be found again"
        return self._found(shell)

    def _found(self, shell: Shell) -> _Found:
        changed = tuple(o for o in self.domains if o in self.answers and shell[o] != self.answers[o])
        return _Found(shell, changed, self.around.gates_of(shell))

    def _containing(self, found: _Found) -> Bar:
        """Changing all that it changes, and carrying all that it carries."""
        others = {o: frozenset(range(len(self.domains[o]))) - {self.answers[o]} for o in found.changed}
        return Bar(others, tuple(self.around.gate(gate) for gate in found.gates))

    def _same(self, found: _Found) -> Bar:
        return Bar({o: frozenset((found.shell[o],)) for o in self.answers})

    def _keep(self) -> tuple[Suggestion, ...]:
        if self.wished is None:
            return ()
        (option,) = (option for option in self.now.options if option.option == self.wished)
        taken = [k for k, c in enumerate(option.choices) if c.state is not State.CLOSED and not c.answered]
        return tuple(self._made(self._filled(self.answers | {self.wished: k}), ()) for k in taken)

    def _made(self, found: _Found, earlier: Sequence[_Found]) -> Suggestion:
        changes = self._changes(found)
        there = _with(self.asked, {change.option: _taken(change) for change in changes})
        answer = ask(self.around.prepared, there, self.tariff)
        assert answer.verdict is not Verdict.CANT, "the engine takes back what it suggests"
        before = self.stood or {**found.shell, **self.answers}
        price, days = self.around.net(found.shell, self.tariff), self.around.days(found.shell)
        return Suggestion(
            changes=changes,
            specification=there,
            answer=answer,
            shell=self._named(found.shell),
            price=price,
            difference=_difference(price, self.around.net(before, self.tariff)),
            days=days,
            days_difference=days - self.around.days(before),
            gains=_less(answer.depends, self.before),
            sheds=_less(self.before, answer.depends),
            beside=_all_beside(found, earlier),
            before=self._named(before),
        )

    def _named(self, shell: Shell) -> dict[str, str]:
        return {option: choices[shell[option]] for option, choices in self.domains.items()}

    def _changes(self, found: _Found) -> tuple[Change, ...]:
        origins = {option: taken.origin for option, taken in self.asked.answers.items()}
        own = {o: found.shell[o] for o, origin in origins.items() if origin is Origin.CHOSEN}
        settled = self.around.settled(own)
        return tuple(self._change(found, o, origins[o] is Origin.USUAL and o in settled) for o in found.changed)

    def _change(self, found: _Found, option: str, forced: bool) -> Change:
        taken = self.asked.answers[option]
        return Change(option, taken.choice, self.domains[option][found.shell[option]], taken.origin, forced)


def _taken(change: Change) -> Taken:
    """What is forced stays taken over, so that its why is still told; the rest the reader chose with the suggestion."""
    return Taken(change.now, Origin.USUAL if change.forced else Origin.CHOSEN)


def _difference(there: int | None, here: int | None) -> int | None:
    return None if there is None or here is None else there - here


def _with(specification: Specification, answers: Mapping[str, Taken]) -> Specification:
    return Specification({**specification.answers, **answers})


def _all_beside(found: _Found, earlier: Sequence[_Found]) -> tuple[Beside, ...]:
    contains = (set(found.changed) >= set(other.changed) for other in earlier)
    return tuple(_beside(found, earlier[place], place) for place, whole in enumerate(contains) if whole)


def _beside(found: _Found, other: _Found, place: int) -> Beside:
    also = tuple(option for option in found.changed if option not in other.changed)
    return Beside(place, also, tuple(gate for gate in other.gates if gate not in found.gates))


def _less(depends: Depends, other: Depends) -> Depends:
    return Depends(
        parts=_without(depends.parts, other.parts),
        approvals=_without(depends.approvals, other.approvals),
        cautions=_without(depends.cautions, other.cautions),
        holds=_without(depends.holds, other.holds),
        tools=_without(depends.tools, other.tools),
    )


def _without(ids: tuple[str, ...], others: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(id_ for id_ in ids if id_ not in others)
