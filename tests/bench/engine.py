"""The engine's rows. Every answer that is timed is held against the yardstick's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import islice
from random import Random

from pysat.solvers import Solver

from rules.answer import Answer, State
from rules.engine.ask import Prepared, ask, prepare
from rules.explain.reasons import reasons
from rules.model import Book, Kind
from rules.money.price import Tariff
from rules.proof.compare import Side, compare
from rules.proof.recheck import Rechecked
from rules.specification import Donor, Specification, Taken
from rules.suggest import Surroundings, suggest
from tests.bench.reference import Yardstick
from tests.bench.rows import Row, rows_of, timed
from tests.rules.demo_book import STATES, structure, whole
from tests.rules.large_books import grown

SEED = 20_261_125
PRIVATE = Tariff("GBP")
NO_DONOR = Donor()


#: An option and one of its choices.
At = tuple[str, str]
#: Causes listed at most.
CAP = 20


@dataclass(frozen=True)
class Effort:
    """How much is asked: of ours, and of the yardstick."""

    ours: int
    theirs: int


FULL = Effort(300, 60)


@cache
def demo() -> Prepared:
    return prepare(whole(), STATES, NO_DONOR)


@cache
def yardstick() -> Yardstick:
    return Yardstick(whole(), STATES, NO_DONOR, PRIVATE)


def walk(book: Book, prepared: Prepared, seed: int, count: int) -> list[dict[str, str]]:
    """Random answers one after another, each among the choices that can be taken; anew once all are given."""
    rng, made, found = Random(seed), dict[str, str](), [dict[str, str]()]
    while len(found) < count:
        answer = ask(prepared, specified(made), PRIVATE)
        options = [o for o in answer.options if o.option not in made]
        if not options or len(made) > 15:
            made = {}
            continue
        option = rng.choice(options)
        made = {
            **made,
            option.option: rng.choice([c.choice for c in option.choices if c.state is not State.CLOSED]),
        }
        found.append(made)
    return found


def specified(made: dict[str, str]) -> Specification:
    return Specification({option: Taken(choice) for option, choice in made.items()})


def full_answer(effort: Effort) -> Iterator[Row]:
    walked = walk(whole(), demo(), SEED, effort.ours)
    fresh = prepare(whole(), STATES, NO_DONOR, order=demo().order)
    spans = [timed(ask, fresh, specified(made), PRIVATE) for made in walked]
    step, ours, theirs = max(1, len(walked) // effort.theirs), list[float](), list[float]()
    for made, (span, answer) in list(zip(walked, spans, strict=True))[::step]:
        reference, (told, causes) = timed(_as_sat, yardstick(), made)
        assert told == _priced(answer), made
        assert answer.capped or causes == _causes(answer)
        _keep((ours, theirs), span, reference)
    yield from rows_of(
        "full_answer",
        ours,
        theirs,
        "choices, the price of each by MaxSAT, causes by hitting sets; counts and depends are ours alone",
    )


def _as_sat(sat: Yardstick, made: dict[str, str]) -> tuple[dict[At, int | None], dict[At, set[frozenset[object]]]]:
    """Every choice with its price, or all its causes."""
    told = sat.full(made)
    return told, {at: sat.causes({**made, at[0]: at[1]}, CAP) for at in sat.whole.variables if at not in told}


def _causes(answer: Answer) -> dict[At, set[frozenset[object]]]:
    closed = ((o.option, c) for o in answer.options for c in o.choices if c.state is State.CLOSED)
    return {(option, c.choice): {frozenset(cause) for cause in c.causes} for option, c in closed}


def _priced(answer: Answer) -> dict[At, int | None]:
    open_ = ((o.option, c) for o in answer.options for c in o.choices)
    return {(option, c.choice): c.price_from.amount for option, c in open_ if c.price_from is not None}


def growth(effort: Effort, groups: Sequence[int] = (1, 2, 4, 8)) -> Iterator[Row]:
    """Fewer questions to the larger ones: the yardstick takes seconds for one."""
    for count in groups:
        book = grown(count)
        prepared = prepare(book, {}, NO_DONOR)
        sat, ours, theirs = Yardstick(book, {}, NO_DONOR, PRIVATE), list[float](), list[float]()
        for made in walk(book, prepared, SEED + count, max(2, effort.theirs // (count * count))):
            span, answer = timed(ask, prepared, specified(made), PRIVATE)
            reference, told = timed(sat.full, made)
            assert told == _priced(answer)
            _keep((ours, theirs), span, reference)
        nodes = prepared.compiled.buildable.nodes
        yield from rows_of(
            f"full_answer_growth_{count}",
            ours,
            theirs,
            f"{nodes} nodes; the reference: choices, and the price of each by MaxSAT",
        )
        yield Row(f"nodes_growth_{count}", nodes, "nodes", None, None)


def compiling(effort: Effort) -> Iterator[Row]:
    ours = [timed(prepare, whole(), STATES, NO_DONOR, order=demo().order)[0] for _ in range(max(3, effort.theirs // 3))]
    theirs = [timed(Yardstick, whole(), STATES, NO_DONOR, PRIVATE)[0] for _ in range(max(3, effort.theirs // 3))]
    yield from rows_of("compile", ours, theirs, "order stored; the reference: clauses and weights of the same book")
    searched = [timed(prepare, whole(), STATES, NO_DONOR)[0] for _ in range(max(2, effort.theirs // 6))]
    yield from rows_of("compile_order_searched", searched, [], "as at publication")


@dataclass(frozen=True)
class Refused:
    made: dict[str, str]
    wish: tuple[str, str]


def refused(count: int) -> list[Refused]:
    """Wishes beside random answers that can't be granted."""
    rng, found = Random(SEED), list[Refused]()
    for made in walk(whole(), demo(), SEED + 1, 20 * count):
        answer = ask(demo(), specified(made), PRIVATE)
        closed = [(o.option, c.choice) for o in answer.options for c in o.choices if c.state is State.CLOSED]
        if made and closed:
            found.append(Refused(made, rng.choice(closed)))
    return rng.sample(found, min(count, len(found)))


def explaining(effort: Effort) -> Iterator[Row]:
    """`reason`: wishes with exactly one; `all_reasons`: all wishes."""
    wishes = refused(effort.theirs * 2)
    spans: dict[bool, tuple[list[float], list[float]]] = {True: ([], []), False: ([], [])}
    for each in wishes:
        span, (found, more) = timed(reasons, demo(), each.made, each.wish)
        named = {frozenset((*reason.answers, *reason.rules)) for reason in found}
        if len(named) == 1 and not more:
            reference, one = timed(yardstick().one_reason, each.made, each.wish)
            assert {one} == named
            _keep(spans[True], span, reference)
        reference, all_ = timed(yardstick().all_reasons, each.made, each.wish, 21)
        assert all_ == named or more
        _keep(spans[False], span, reference)
    yield from rows_of("reason", *spans[True], "wishes with one reason; the reference: one by deletion")
    yield from rows_of("all_reasons", *spans[False], "the reference: implicit hitting sets")


def _keep(spans: tuple[list[float], list[float]], ours: float, theirs: float) -> None:
    spans[0].append(ours)
    spans[1].append(theirs)


def alternatives(effort: Effort) -> Iterator[Row]:
    around, ours, theirs = Surroundings(demo(), STATES, NO_DONOR), list[float](), list[float]()
    for each in refused(effort.theirs // 2 or 1):
        span, found = timed(suggest, around, specified(each.made), PRIVATE, each.wish)
        reference, told = timed(_nearest, yardstick(), each)
        first = {change.option for change in found.nearest[0].changes} if found.nearest else None
        assert (first is None and not told) or (first is not None and len(first - {each.wish[0]}) == len(told[0]))
        _keep((ours, theirs), span, reference)
    note = "each with a full answer; the reference: fewest changes, then price, each with its choices and prices"
    yield from rows_of("alternatives", ours, theirs, note)


def _nearest(sat: Yardstick, asked: Refused) -> list[frozenset[str]]:
    """Up to three, each told in full as ours are."""
    found = sat.nearest(asked.made, asked.wish, 3)
    for shell, _ in found:
        sat.full({o: shell[o] for o in (*asked.made, asked.wish[0])})
    return [changed for _, changed in found]


def comparing(effort: Effort) -> Iterator[Row]:
    """On the structure of the demo book, rules left out one at a time: counts; the yardstick lists what is gained."""
    book, ours, theirs = structure(), list[float](), list[float]()
    hard = [rule for rule in book.rules if rule.kinds & {Kind.NEVER, Kind.NEEDS}]
    for rule in Random(SEED).sample(hard, min(len(hard), effort.theirs)):
        other = replace(book, rules=tuple(r for r in book.rules if r.id != rule.id))
        span, found = timed(compare, Side(book, STATES), Side(other, STATES))
        if found.whole.gained > 3_000:
            continue
        reference, gained = timed(_gained, book, rule.id, other)
        assert (found.whole.lost, found.whole.gained) == (0, gained)
        _keep((ours, theirs), span, reference)
    note = "exact counts, per choice, examples; the reference lists what is gained (up to 3 000), nothing per choice"
    yield from rows_of("compare_books", ours, theirs, note)


def _gained(book: Book, id_: str, other: Book) -> int:
    """Models of the other book that break the rule."""
    sat = Yardstick(other, STATES, NO_DONOR, None)
    broken = Yardstick(book, STATES, NO_DONOR, None).rules[id_]
    with Solver(name="glucose4", bootstrap_with=sat.whole.clauses) as solver:
        first = len(sat.whole.variables) + 1
        for place, clause in enumerate(broken, first):
            for literal in clause:
                solver.add_clause([-place, -literal])
        solver.add_clause(list(range(first, first + len(broken))))
        found = set[frozenset[int]]()
        for model in solver.enum_models():
            found.add(frozenset(x for x in model if 0 < x < first))
    return len(found)


def rechecking(effort: Effort, stored: int = 10_000, sample: int = 500) -> Iterator[Row]:
    """Whether stored specifications can still be built, and outright; some of them broken by a change."""
    rng = Random(SEED)
    specifications = list(islice(_complete(rng), stored))
    stands = Rechecked(demo()).stands
    ours, found = timed(lambda: [stands(made) for made in specifications])
    checked = rng.sample(range(stored), min(sample, stored))
    sat = yardstick()

    def theirs() -> list[tuple[bool, bool]]:
        return [(sat.can(specifications[i]), sat.outright.can(sat.gated, specifications[i])) for i in checked]

    reference, told = timed(theirs)
    assert told == [found[i] for i in checked]
    whole_ = reference * stored / len(checked)
    note = f"{stored} specifications; the reference: {len(checked)} of them, times {stored / len(checked):.0f}"
    yield Row("recheck", round(ours, 2), "ms", round(whole_, 2), round(whole_ / ours, 2), note)


def _complete(rng: Random) -> Iterator[dict[str, str]]:
    """Whole shells, one answer of every third changed at random."""
    domains = demo().layout.domains
    while True:
        made: dict[str, str] = {}
        for layer, node in _down(demo(), rng):
            made[layer] = domains[layer][node]
        for _ in range(40):
            other = dict(made)
            option = rng.choice(tuple(domains))
            if rng.random() < 0.33:
                other[option] = rng.choice(domains[option])
            yield other


def _down(prepared: Prepared, rng: Random) -> Iterator[tuple[str, int]]:
    node = 0
    for layer in prepared.compiled.buildable.layers:
        steps = [(k, child) for k, edges in enumerate(layer.edges) for at, child, _ in edges if at == node]
        choice, node = rng.choice(steps)
        yield layer.option, choice
