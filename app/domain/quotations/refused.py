"""What was asked for and could not be built, counted; and after how many shells remaking a tool pays back.

A refusal names all of its smallest causes, so it counts under each rule or tool among them: the rows of a table by
cause are no parts of a whole. Money is never put into another currency.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

#: The smallest causes, each a tuple of ids of rules and tools, sorted.
Causes = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """`net`: what the nearest shells that can be built come to, all `quantity` of them before tax; None: none found."""

    enquiry: int
    quotation: str
    causes: Causes
    book: int
    quantity: int
    currency: str
    net: int | None
    at: datetime

    @property
    def ids(self) -> frozenset[str]:
        return frozenset(id_ for cause in self.causes for id_ in cause)


@dataclass(frozen=True, slots=True)
class Counted:
    """`enquiries` and `shells` refused; `nets`: currency → minor units before tax; `unpriced`: refusals without any."""

    enquiries: int
    shells: int
    nets: Mapping[str, int]
    unpriced: int


@dataclass(frozen=True, slots=True)
class Remaking:
    """What a person takes remaking a tool to cost, and to be left over of each shell; minor units of `currency`."""

    tool: str
    cost: int
    margin: int
    currency: str
    at: datetime
    by: str

    @property
    def pays_back_after(self) -> int:
        """Shells whose margins cover the cost, counted up."""
        return -(-self.cost // self.margin)


def sorted_causes(causes: Iterable[Iterable[str]]) -> Causes:
    """So that the same causes are the same, in whatever order they were found."""
    return tuple(sorted({tuple(sorted(cause)) for cause in causes}))


def counted(refused: Iterable[Refused]) -> Counted:
    found = tuple(refused)
    nets: dict[str, int] = {}
    for one in found:
        if one.net is not None:
            nets[one.currency] = nets.get(one.currency, 0) + one.net
    shells, unpriced = sum(one.quantity for one in found), sum(one.net is None for one in found)
    return Counted(len({one.enquiry for one in found}), shells, nets, unpriced)


def by_cause(refused: Sequence[Refused]) -> dict[str, Counted]:
    """Rule or tool → what it was named in, the most enquiries first."""
    ids = {id_ for one in refused for id_ in one.ids}
    rows = {id_: counted(one for one in refused if id_ in one.ids) for id_ in ids}
    return dict(sorted(rows.items(), key=lambda row: (-row[1].enquiries, -row[1].shells, row[0])))
