"""What the engine says about a specification. Data only: words are made elsewhere, from the ids named here.

What an answer has a hundred of is a frozen struct: made in a fraction of the time that a frozen dataclass takes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from msgspec import Struct


class Verdict(Enum):
    """The three different answers (the last in two shades), the gravest first."""

    CANT = "cant"
    ONCE = "once"
    NOT_AS_HAD = "not-as-had"
    AS_HAD = "as-had"


class State(Enum):
    """How a choice stands; `rules.engine.standing` says what each means.

    CLOSED on an answered choice: the answers given contradict each other.
    """

    USUAL = "usual"
    CHOSEN = "chosen"
    FORCED = "forced"
    OPEN = "open"
    CLOSED = "closed"


#: A smallest set of rule ids (lost tools count by their own id) that can't hold together, in the book's order.
Cause = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Depends:
    """Rule ids by kind, in the book's order, that the choices made set off; `tools`: ids of tools that are down.

    All empty on a specification that can't be built.
    """

    parts: tuple[str, ...] = ()
    approvals: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()


class PriceFrom(Struct, frozen=True):
    """The least sum of line nets before tax over completions, one shell, whole minor units.

    `amount` None: *not priced*. `outright` False: every completion needs a part or an approval, and the amount is over
    all of them. `worked_out` False: nobody knows, for the book is too large for a diagram; the amount is None then.
    """

    amount: int | None
    outright: bool
    worked_out: bool = True


class ChoiceAnswer(Struct, frozen=True):
    """A choice as it stands, all other answers kept.

    `difference`: price from there less price from here, minor units; where but one of the two is outright, over all
    completions with the choice and without what needs a part or an approval for itself; None where either is not
    priced or the choice is closed.
    `price_from` None only on a closed choice. `depends`: what the specification with this choice would depend
    on. `causes`: on a closed choice, every minimal set of rules that forbids taking it.
    """

    choice: str
    state: State
    answered: bool
    usual: bool
    price_from: PriceFrom | None
    difference: int | None
    depends: Depends
    causes: tuple[Cause, ...]


class OptionAnswer(Struct, frozen=True):
    """`settled`: the choice that stands, answered or forced; None while the question is open."""

    option: str
    settled: str | None
    choices: tuple[ChoiceAnswer, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """The full answer.

    `verdict` is the headline, `verdicts` all that hold, gravest first (CANT stands alone). `complete`: every option is
    answered or forced. `count`: complete variants left, exact; `outright`: those of them with neither part nor
    approval; None: not counted, which only happens to a book too large for a diagram. `causes`: on CANT, every minimal
    set of rules that the choices made contradict; `capped`: there are more causes than were listed, here or at a
    choice. `settled`: option id → choice id, answered or forced.
    """

    verdict: Verdict
    verdicts: tuple[Verdict, ...]
    complete: bool
    open_questions: tuple[str, ...]
    options: tuple[OptionAnswer, ...]
    causes: tuple[Cause, ...]
    capped: bool
    count: int | None
    outright: int | None
    price_from: PriceFrom
    depends: Depends
    settled: Mapping[str, str]
