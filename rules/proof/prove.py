"""All that can be proved of a book under one state of its tools. Nothing is worded here, and nothing is mended."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rules.answer import Answer, State
from rules.condition import Is
from rules.donor.usual import key_options
from rules.engine.ask import LIMIT, Prepared, ask, prepare
from rules.engine.diagram import TooLarge
from rules.model import Book, ToolCondition
from rules.money.price import Tariff
from rules.proof.finding import Counted, Dead, NotLost, Proof
from rules.proof.ground import Ground
from rules.proof.idle import idle_rules
from rules.proof.silent import idle_tools, silent_things, toolless_choices, unpriced_lines
from rules.proof.standard import standard_shells
from rules.proof.variants import count_variants, variants
from rules.specification import Donor, Specification, Taken

#: Nothing here asks for a price of the full answer.
_NO_LIST = Tariff("")


def prove(
    book: Book, states: Mapping[str, ToolCondition], limit: int = LIMIT, prepared: Prepared | None = None
) -> Proof:
    """Every finding of the book. `prepared`: of the same book and states for an unknown donor car, where it is at hand.

    TooLarge where no order tried stays within `limit` raw states.
    """
    ready = prepare(book, states, Donor(), limit) if prepared is None else prepared
    ground, answer = Ground(book, states, ready.order, limit), _ask(ready)
    shells = standard_shells(ground)
    count, outright = _counted(answer)
    return Proof(
        count=count,
        outright=outright,
        variants=_variants(ground, ready),
        counts=tuple(_counts(book, ready)),
        contradiction=answer.causes,
        capped=answer.capped,
        dead=tuple(_dead(book, answer)),
        not_lost=tuple(_not_lost(ground)),
        idle=idle_rules(ground),
        silent=silent_things(ground),
        unpriced=unpriced_lines(ground),
        idle_tools=idle_tools(ground),
        toolless=toolless_choices(ground),
        standard=tuple(shell for shell in shells if not shell.causes),
        broken=tuple(shell for shell in shells if shell.causes),
    )


def _ask(prepared: Prepared, made: Mapping[str, str] | None = None) -> Answer:
    return ask(prepared, Specification({o: Taken(c) for o, c in (made or {}).items()}), _NO_LIST)


def _variants(ground: Ground, prepared: Prepared) -> int | None:
    structural = [option.id for option in ground.book.options if option.structural]
    try:
        return count_variants(variants(ground.book, ground.states, Donor(), structural, prepared.order, ground.limit))
    except TooLarge:
        return None


def _counts(book: Book, prepared: Prepared) -> Iterator[Counted]:
    """By the key options: series, market, body."""
    for option in key_options(book):
        for choice in book.option(option).choices:
            yield Counted(option, choice.id, *_counted(_ask(prepared, {option: choice.id})))


def _counted(answer: Answer) -> tuple[int, int]:
    assert answer.count is not None
    assert answer.outright is not None
    return answer.count, answer.outright


def _dead(book: Book, answer: Answer) -> Iterator[Dead]:
    """With a contradiction every choice is dead: it is said once, there."""
    for option in answer.options if answer.count else ():
        for choice in option.choices:
            if choice.state is State.CLOSED:
                declared = book.option(option.option).choice(choice.choice).lost
                yield Dead(option.option, choice.choice, declared, choice.causes)


def _not_lost(ground: Ground) -> Iterator[NotLost]:
    for option in ground.book.options:
        for choice in (choice for choice in option.choices if choice.lost):
            node, car = ground.forest.grow(Is(option.id, frozenset((choice.id,)))), ground.cars[0]
            witness = ground.buildable(node, car)
            if witness is not None:
                yield NotLost(option.id, choice.id, witness)
