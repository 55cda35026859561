"""The engine against python-sat, under the encoding of tests/rules/by_sat.py with a switch for each rule.

For books too wide to list. That causes and reasons are *all* of them is told by a solver's word alone: where something
of each found one is taken away, in every smallest way, the rest must hold together (hitman enumerates the ways).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from random import Random

from pysat.examples.hitman import Hitman
from pysat.solvers import Solver

from rules.answer import Answer, ChoiceAnswer, Depends, State, Verdict
from rules.condition import All, Condition, Not
from rules.engine.prepare import Prepared
from rules.explain.reasons import reasons
from rules.model import Kind, ToolCondition
from rules.money.price import Tariff
from rules.specification import Origin, Specification
from rules.suggest import Surroundings, suggest
from tests.fuzz.differing import Difference, compared
from tests.fuzz.walks import Question
from tests.rules.by_sat import BySat
from tests.rules.random_books import Asked

Made = Mapping[str, str]
#: Variants counted by listing models, at most.
COUNTED = 1_500
#: Ways of taking something of each cause away that are tried, at most.
WAYS = 150
#: Seconds for one price, and how many took longer.
PATIENCE = 3.0
GIVEN_UP = 0


class Doubting:
    """One book, tool state and donor: which rules and answers hold together."""

    def __init__(self, asked: Asked) -> None:
        self.whole = BySat(asked.book, asked.states, asked.donor)
        self.outright = BySat(asked.book, asked.states, asked.donor, outright=True)
        self.solver = Solver(name="cadical153", bootstrap_with=list(self.whole._exactly_one()))
        bans = list(_bans(asked))
        self.ids = list(dict.fromkeys(id_ for id_, _ in bans))
        self.switches = {id_: len(self.whole.variables) + i for i, id_ in enumerate(self.ids, 1)}
        for id_, when in bans:
            for clause in self.whole.forbidding(when):
                self.solver.add_clause([-self.switches[id_], *clause])

    def can(self, made: Made, ids: Sequence[str] | None = None) -> bool:
        """Whether the choices and these rules (None: all) hold together."""
        switches = [self.switches[id_] for id_ in (self.ids if ids is None else ids)]
        return bool(self.solver.solve(assumptions=[*self.whole.assumed(made), *switches]))

    def settled(self, made: Made) -> dict[str, str]:
        if not self.can(made):
            return dict(made)
        open_to = {o: [c for c in choices if self._stays(made, o, c)] for o, choices in self.whole.domains.items()}
        return {option: choices[0] for option, choices in open_to.items() if len(choices) == 1}

    def _stays(self, made: Made, option: str, choice: str) -> bool:
        return made.get(option, choice) == choice and self.can({**made, option: choice})

    def certain(self, when: Condition, settled: Made) -> bool:
        """Whether a condition holds however the rest is answered."""
        agreeing = (c for c in self.whole.combinations(when) if all(settled.get(o, x) == x for o, x in c.items()))
        return all(self.whole.reader.says(when, made) is True for made in agreeing)


def _bans(asked: Asked) -> Iterator[tuple[str, Condition]]:
    for rule in asked.book.rules:
        if Kind.NEVER in rule.kinds:
            yield rule.id, rule.when
        if Kind.NEEDS in rule.kinds and rule.needs is not None:
            yield rule.id, All((rule.when, Not(rule.needs)))
    for tool in asked.book.tools:
        if asked.states.get(tool.id) is ToolCondition.LOST and not tool.speaks_as and not tool.stands_in:
            yield tool.id, tool.needed_for


def against_a_solver(
    question: Question, prepared: Prepared, answer: Answer, doubting: Doubting
) -> Iterator[Difference]:
    """Everything that the solver says differently; prices of the whole and of one choice."""
    asked = question.asked
    rng = Random(question.step)
    yield from _whole(answer, asked, doubting)
    for option in answer.options:
        for choice in option.choices:
            yield from _choice(choice, answer, asked, doubting, option.option)
    yield from _one_price(rng, answer, asked, doubting)
    for wish in (None, question.wish):
        yield from _reasons(prepared, asked.specification.choices(), wish, doubting)
    yield from _suggestions(question, prepared, doubting)


def _whole(answer: Answer, asked: Asked, doubting: Doubting) -> Iterator[Difference]:
    made = asked.specification.choices()
    can, settled = doubting.can(made), doubting.settled(made)
    yield from compared(
        ("can be built", answer.verdict is not Verdict.CANT, can),
        ("settled", answer.settled, settled),
        ("depends", answer.depends, _depends(asked, doubting, settled) if can else Depends()),
        ("causes of what can be built", bool(answer.causes), not can),
    )
    for what, count, sat in (("count", answer.count, doubting.whole), ("outright", answer.outright, doubting.outright)):
        if count is not None and count <= COUNTED:
            yield from compared((what, count, _counted(sat, made, count + 1)))
    if can:
        sat = doubting.outright if answer.outright else doubting.whole
        yield from _price("price from", answer.price_from.amount, sat, made, asked.tariff)
        yield from compared(("price from outright", answer.price_from.outright, bool(answer.outright)))
    else:
        yield from _causes("causes", answer.causes, answer.capped, made, doubting)


def _counted(sat: BySat, made: Made, most: int) -> int:
    with Solver(name="glucose4", bootstrap_with=[*sat.clauses, *([x] for x in sat.assumed(made))]) as solver:
        return sum(1 for _ in islice(solver.enum_models(), most))


def _choice(found: ChoiceAnswer, answer: Answer, asked: Asked, doubting: Doubting, option: str) -> Iterator[Difference]:
    made = asked.specification.choices()
    there, what = {**made, option: found.choice}, f"{option}: {found.choice}"
    usual = {o.option: c.choice for o in answer.options for c in o.choices if c.usual}.get(option)
    state = _state(asked.specification, doubting, (option, found.choice), usual)
    yield from compared((f"{what} state", found.state, state))
    if state is State.CLOSED:
        yield from _causes(f"{what} causes", found.causes, answer.capped, there, doubting)
    else:
        depends = _depends(asked, doubting, doubting.settled(there))
        yield from compared((f"{what} depends", found.depends, depends), (f"{what} causes", found.causes, ()))


def _state(specification: Specification, doubting: Doubting, stands: tuple[str, str], usual: str | None) -> State:
    """What is usual the table says, not the solver: that is taken from the answer."""
    option, choice = stands
    made, taken = specification.choices(), specification.answers.get(option)
    open_ = [c for c in doubting.whole.domains[option] if doubting.can({**made, option: c})]
    if choice not in open_:
        return State.CLOSED
    if len(open_) > 1 if taken is None else taken.choice != choice:
        return State.OPEN
    if choice == usual:
        return State.USUAL
    if taken is not None and taken.origin is Origin.CHOSEN:
        return State.CHOSEN
    own = {o: c for o, c in specification.own().items() if o != option}
    if taken is None or (doubting.settled(own).get(option) == choice and doubting.can(own)):
        return State.FORCED
    return State.USUAL if usual is None else State.CHOSEN


def _depends(asked: Asked, doubting: Doubting, settled: Made) -> Depends:
    names = {Kind.PART: "parts", Kind.APPROVAL: "approvals", Kind.CAUTION: "cautions", Kind.HOLD: "holds"}
    heard: dict[str, list[str]] = {name: [] for name in (*names.values(), "tools")}
    for rule in asked.book.rules:
        for kind in rule.kinds & names.keys():
            if doubting.certain(rule.when, settled):
                heard[names[kind]].append(rule.id)
    for tool in asked.book.tools:
        if asked.states.get(tool.id) is ToolCondition.DOWN and doubting.certain(tool.needed_for, settled):
            heard["tools"].append(tool.id)
    return Depends(**{name: tuple(ids) for name, ids in heard.items()})


def _one_price(rng: Random, answer: Answer, asked: Asked, doubting: Doubting) -> Iterator[Difference]:
    open_ = [(o.option, c) for o in answer.options for c in o.choices if c.price_from is not None]
    for option, choice in rng.sample(open_, min(1, len(open_))):
        there = {**asked.specification.choices(), option: choice.choice}
        assert choice.price_from is not None
        outright = _counted(doubting.outright, there, 1) > 0
        what, sat = f"{option}: {choice.choice} price from", doubting.outright if outright else doubting.whole
        yield from compared((f"{what} outright", choice.price_from.outright, outright))
        yield from _price(what, choice.price_from.amount, sat, there, asked.tariff)


def _price(what: str, amount: int | None, sat: BySat, made: Made, tariff: Tariff) -> Iterator[Difference]:
    """Weighted MaxSAT, now and then, needs hours for a few lines: what it can't tell in time is only counted."""
    global GIVEN_UP
    try:
        yield from compared((what, amount, sat.cheapest(made, tariff, seconds=PATIENCE)))
    except TimeoutError:
        GIVEN_UP += 1


def _causes(
    what: str, found: Sequence[tuple[str, ...]], capped: bool, made: Made, doubting: Doubting
) -> Iterator[Difference]:
    """Each clashes, nothing can be dropped of it, and there is no other one."""
    for cause in found:
        yield from compared((f"{what} {cause} clashes", True, not doubting.can(made, cause)))
        for dropped in cause:
            less = [id_ for id_ in cause if id_ != dropped]
            yield from compared((f"{what} {cause} needs {dropped}", True, doubting.can(made, less)))
    for gone in [] if capped else _ways(found):
        left = [id_ for id_ in doubting.ids if id_ not in gone]
        yield from compared((f"{what}: all known once {gone} are gone", True, doubting.can(made, left)))


def _ways(found: Sequence[Sequence[object]]) -> list[frozenset[object]]:
    """Smallest ways of taking something of each away."""
    if not found or not all(found):
        return [] if found else [frozenset()]
    with Hitman(bootstrap_with=[list(each) for each in found], htype="sorted") as hitman:
        return [frozenset(way) for way in islice(hitman.enumerate(), WAYS)]


def _reasons(prepared: Prepared, made: Made, wish: tuple[str, str] | None, doubting: Doubting) -> Iterator[Difference]:
    found, more = reasons(prepared, made, wish)
    granted = dict((wish,)) if wish else {}
    others = {option: choice for option, choice in made.items() if option not in granted}
    for reason in found:
        answers, what = dict(reason.answers), f"reason {reason}"
        yield from compared((f"{what} clashes", True, not doubting.can(granted | answers, reason.rules)))
        for dropped in answers:
            less = {o: c for o, c in answers.items() if o != dropped}
            yield from compared((f"{what} needs {dropped}", True, doubting.can(granted | less, reason.rules)))
        for id_ in reason.rules:
            kept = [other for other in reason.rules if other != id_]
            yield from compared((f"{what} needs {id_}", True, doubting.can(granted | answers, kept)))
        alone = not doubting.can(answers, reason.rules)
        yield from compared((f"{what} names the wish", reason.wish, None if alone else wish))
    for gone in [] if more else _ways([(*reason.answers, *reason.rules) for reason in found]):
        left = {o: c for o, c in others.items() if (o, c) not in gone}
        rules = [id_ for id_ in doubting.ids if id_ not in gone]
        yield from compared((f"reasons: all known once {gone} are gone", True, doubting.can(granted | left, rules)))


def _suggestions(question: Question, prepared: Prepared, doubting: Doubting) -> Iterator[Difference]:
    asked = question.asked
    found = suggest(Surroundings(prepared, asked.states, asked.donor), asked.specification, asked.tariff, question.wish)
    for suggestion in (*found.nearest, *found.fill, *found.keep):
        made = suggestion.specification.choices()
        can = doubting.can(suggestion.shell) and made.items() <= suggestion.shell.items()
        yield from compared((f"suggested {suggestion.shell} can be built", True, can))
        what = f"price of suggested {suggestion.shell}"
        yield from _price(what, suggestion.price, doubting.whole, suggestion.shell, asked.tariff)
