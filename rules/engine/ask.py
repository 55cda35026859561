"""The full answer: what stands, what can still be taken and at what price, what it depends on, and why not.

A few passes over what `prepare` compiled. Nothing is worded here, and a price never decides what can be built.

What a choice would depend on is read from the specification with that choice in place of the option's own answer,
together with everything that this forces.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from rules.answer import Answer, Cause, ChoiceAnswer, Depends, OptionAnswer, PriceFrom, State, Verdict
from rules.engine.causes import Found
from rules.engine.prepare import LIMIT, Prepared, prepare
from rules.engine.standing import standing_of
from rules.engine.sweep import UNPRICED, Price
from rules.engine.view import Branch, Ready, View
from rules.money.price import Tariff
from rules.specification import Specification, Taken, UnknownNames

__all__ = ["LIMIT", "Prepared", "ask", "prepare"]

NOT_PRICED = PriceFrom(None, False)
NOTHING = Depends()


@dataclass(frozen=True, slots=True)
class _Standing:
    """All that the answers to single options are read from. `answers`, `own`, `alone`: sets of choices."""

    prepared: Ready
    specification: Specification
    made: Mapping[str, str]
    answers: int
    buildable: View
    outright: View
    own: int
    alone: int
    settled: Mapping[str, str]
    usual: Mapping[str, str]
    price_from: PriceFrom


class _Place(NamedTuple):
    """What is the same for all choices of an option. `only`: one of them is left."""

    option: str
    usual: str | None
    taken: Taken | None
    only: bool


def ask(prepared: Ready, specification: Specification, tariff: Tariff) -> Answer:
    """The full answer by one tariff, one shell; UnknownNames where the specification names what the book hasn't."""
    _check(prepared, specification)
    standing = _stand(prepared, specification, tariff)
    options = tuple(_option(standing, option) for option in prepared.layout.options)
    causes, capped = ((), False) if standing.buildable.ways else prepared.causes.of(standing.answers)
    return _answer(standing, tuple(option for option, _ in options), causes, capped or any(more for _, more in options))


def _check(prepared: Ready, specification: Specification) -> None:
    domains = prepared.layout.domains
    unknown = [
        (option, taken.choice if option in domains else None)
        for option, taken in specification.answers.items()
        if taken.choice not in domains.get(option, ())
    ]
    if unknown:
        raise UnknownNames(unknown)


def _stand(prepared: Ready, specification: Specification, tariff: Tariff) -> _Standing:
    made = specification.choices()
    buildable, outright = prepared.views(made, tariff)
    answers = prepared.layout.mask(made)
    alone = prepared.layout.settled(buildable.choices) if buildable.ways else answers
    settled = prepared.layout.made(alone)
    return _Standing(
        prepared=prepared,
        specification=specification,
        made=made,
        answers=answers,
        buildable=buildable,
        outright=outright,
        own=_own(prepared, specification, alone) if buildable.ways else 0,
        alone=alone,
        settled=settled,
        usual=prepared.original.usual(settled),
        price_from=_price_from(buildable.ways, buildable.price, outright.ways, outright.price),
    )


def _own(ready: Ready, specification: Specification, alone: int) -> int:
    """The choices that stand alone by the reader's own answers, as a set."""
    own = specification.own()
    return alone if len(own) == len(specification.answers) else ready.alone(own)


def _price_from(ways: bool, price: Price | None, outright: bool, outright_price: Price | None) -> PriceFrom:
    """Over completions with neither part nor approval; over all, and marked so, where there are none."""
    best = outright_price if outright else price
    if not ways:
        return NOT_PRICED
    return PriceFrom(None if best is None or best == UNPRICED else int(best), outright, best is not None)


def _option(standing: _Standing, option: str) -> tuple[OptionAnswer, bool]:
    """Every choice of the option, and whether more causes were found than are listed. Every click goes through here."""
    layout, taken = standing.prepared.layout, standing.specification.answers.get(option)
    branches, outright = standing.buildable.branches[option], standing.outright.branches[option]
    place = _Place(option, standing.usual.get(option), taken, [ways for ways, _, _ in branches].count(True) == 1)
    found, capped = list[ChoiceAnswer](), False
    for choice, bit, branch, apart in zip(layout.domains[option], layout.bits(option), branches, outright, strict=True):
        if branch[0]:
            found.append(_open(standing, place, choice, bit, branch, apart))
        else:
            causes, more = _why_not(standing, layout.field(option), bit)
            found.append(_closed(place, choice, causes))
            capped = capped or more
    return OptionAnswer(option, standing.settled.get(option), tuple(found)), capped


def _why_not(standing: _Standing, field: int, bit: int) -> Found:
    """Every cause that forbids a choice beside the answers to other options; quicker where these can be built."""
    causes, others = standing.prepared.causes, standing.answers & ~field
    return causes.beside(others, field, bit) if standing.buildable.ways else causes.of(others | bit)


def _closed(place: _Place, choice: str, causes: tuple[Cause, ...]) -> ChoiceAnswer:
    answered = place.taken is not None and place.taken.choice == choice
    return ChoiceAnswer(choice, State.CLOSED, answered, place.usual == choice, None, None, NOTHING, causes)


def _open(standing: _Standing, place: _Place, choice: str, bit: int, branch: Branch, outright: Branch) -> ChoiceAnswer:
    """What is taken over counts as forced by the reader's own answers alone."""
    (_, usual, taken, only), ready = place, standing.prepared
    ways, price, choices = branch
    price_from = _price_from(ways, price, outright[0], outright[1])
    return ChoiceAnswer(
        choice,
        standing_of(choice, usual, taken, only=only if taken is None else standing.own & bit != 0),
        taken is not None and taken.choice == choice,
        usual == choice,
        price_from,
        _difference(standing, place, price_from, price),
        ready.voices.depends(ready.layout.settled(choices)),
        (),
    )


def _beside(standing: _Standing, place: _Place) -> Price | None:
    """What it comes to over all completions, parts and approvals or not, without a choice that itself needs one."""
    if place.taken is not None:
        return standing.buildable.price if standing.buildable.ways else None
    both = zip(standing.buildable.branches[place.option], standing.outright.branches[place.option], strict=True)
    prices = [price for (_, price, _), (plain, _, _) in both if plain]
    known = [price for price in prices if price is not None]
    return min(known) if known and len(known) == len(prices) else None


def _difference(standing: _Standing, place: _Place, there: PriceFrom, price: Price | None) -> int | None:
    """Like against like: what needs a part is cheapest with other parts sent as well, which is not its price."""
    here = standing.price_from
    if there.outright != here.outright:
        here, there = (_price_from(True, each, False, None) for each in (_beside(standing, place), price))
    return None if there.amount is None or here.amount is None else there.amount - here.amount


def _answer(standing: _Standing, options: tuple[OptionAnswer, ...], causes: tuple[Cause, ...], capped: bool) -> Answer:
    can = standing.buildable.ways
    depends = standing.prepared.voices.depends(standing.alone) if can else Depends()
    differs = standing.prepared.original.differs(standing.settled, standing.alone)
    verdicts = _verdicts(can, depends, differs)
    open_questions = tuple(option for option in standing.prepared.layout.options if option not in standing.settled)
    return Answer(
        verdict=verdicts[0],
        verdicts=verdicts,
        complete=not open_questions,
        open_questions=open_questions,
        options=options,
        causes=causes,
        capped=capped,
        count=standing.buildable.count,
        outright=standing.outright.count,
        price_from=standing.price_from,
        depends=depends,
        settled=standing.settled,
    )


def _verdicts(can: bool, depends: Depends, differs: bool) -> tuple[Verdict, ...]:
    """All that hold, the gravest first; of a shell that can't be built nothing else is said."""
    if not can:
        return (Verdict.CANT,)
    once = (Verdict.ONCE,) if depends.parts or depends.approvals else ()
    return (*once, Verdict.NOT_AS_HAD if differs else Verdict.AS_HAD)
