"""A shell leaves the house: how it is packed, what must be so before it goes, and what goes with it. Pure.

Incoterms 2020: a rule is only a rule with its named place. ISPM 15: timber that crosses a border is heat-treated and
marked. Nothing here decides about customs or tax: what the importer needs is printed as it was told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import Enum

from app.domain.errors import Fault
from app.domain.floor.shell import ShellState

#: Incoterms 2020, the rules for any way of carriage, then those for the sea.
INCOTERMS = ("EXW", "FCA", "CPT", "CIP", "DAP", "DPU", "DDP", "FAS", "FOB", "CFR", "CIF")


@dataclass(frozen=True, slots=True)
class Package:
    """One piece that is lifted: `length`, `width`, `height` in mm, `mass` gross in kg, weighed; `timber`: has any."""

    kind: str
    length: int
    width: int
    height: int
    mass: int
    timber: bool = False


@dataclass(frozen=True, slots=True)
class Term:
    """An Incoterms 2020 rule with its named place."""

    rule: str = ""
    place: str = ""

    def __str__(self) -> str:
        return f"{self.rule} {self.place}, Incoterms 2020"


@dataclass(frozen=True, slots=True)
class Packing:
    """How one shell is packed and by whom it is carried, as somebody typed it.

    `loose`: parts that go with it, unfitted; `returned`: the customer's own that go back to him. `timber_mark`: what is
    burnt into the timber (ISPM 15). `evidence`: how it will be shown that the goods left.
    """

    packages: tuple[Package, ...]
    net_mass: int
    loose: tuple[str, ...] = ()
    returned: tuple[str, ...] = ()
    carrier: str = ""
    consignee: tuple[str, ...] = ()
    term: Term = field(default_factory=Term)
    timber_mark: str = ""
    evidence: str = ""

    @property
    def gross_mass(self) -> int:
        return sum(package.mass for package in self.packages)


@dataclass(frozen=True, slots=True)
class Trade:
    """What the firm says of its shells on export papers, as the manager set it, and how long damage may be told.

    `hs_code`: heading of the Harmonized System; `origin`: ISO 3166-1 alpha-2.
    """

    hs_code: str = "8707.10"
    origin: str = "GB"
    damage_days: int = 5


@dataclass(frozen=True, slots=True)
class Standing:
    """How a shell stands on its way out. `invoice`: the number of what bills its balance.

    `open`: with tax, what nobody has paid of what left before and of this.

    `dealers`: a dealer is billed; `credit`: what he may owe.
    `abroad`: it crosses a border; `untaxed`: it is billed as an export.
    `overcoat_by`: the last day for the next coat on its primer, where it is primed and somebody wrote it down;
    `acknowledged`: who takes it after that day all the same, in which written words. `inspected` in its coat.
    `out`: what was read of it since, is out, and nobody conceded.
    `concessions`, `rework`: what nobody has answered or mended. `stops`: what stops it where it is, a safety fault say.
    """

    state: ShellState
    currency: str
    invoice: str | None
    open: int
    credit: int
    packing: Packing | None
    abroad: bool
    untaxed: bool
    overcoat_by: date | None = None
    acknowledged: str = ""
    inspected: bool = True
    out: tuple[str, ...] = ()
    concessions: tuple[str, ...] = ()
    rework: tuple[str, ...] = ()
    stops: tuple[Fault, ...] = ()
    dealers: bool = False

    @property
    def cleared(self) -> bool:
        """Whether its balance keeps it in the house no longer."""
        return self.invoice is not None and self.open <= self.credit

    @property
    def on_credit(self) -> bool:
        return self.cleared and self.open > 0


class Keeps(Enum):
    """What keeps a shell in the house."""

    NOT_READY = "not-ready"
    HELD = "held"
    UNINSPECTED = "uninspected"
    OUT = "out"
    REWORK = "rework"
    CONCESSION = "concession"
    NOT_BILLED = "not-billed"
    BALANCE = "balance"
    NOT_PACKED = "not-packed"
    CONSIGNEE = "consignee"
    TERM = "term"
    EVIDENCE = "evidence"
    TIMBER = "timber"
    OVERCOAT = "overcoat"


#: A balance that is open and a dealer's: he alone can have credit.
DEALER_OWES = "keeps-balance-dealer"


def keeps(stands: Standing, today: date) -> tuple[Fault, ...]:
    """All that keeps it in the house, at once; nothing where it may go."""
    return (*stands.stops, *_workshop(stands), *_money(stands), *_packed(stands), *_primer(stands, today))


def _fault(what: Keeps, **facts: object) -> Fault:
    return Fault(what.value, f"keeps-{what.value}", facts)


def _workshop(stands: Standing) -> Iterator[Fault]:
    if stands.state is ShellState.ON_HOLD:
        yield _fault(Keeps.HELD)
    elif stands.state is not ShellState.READY:
        yield _fault(Keeps.NOT_READY)
    if not stands.inspected:
        yield _fault(Keeps.UNINSPECTED)
    if stands.out:
        yield _fault(Keeps.OUT, of=", ".join(stands.out))
    if stands.rework:
        yield _fault(Keeps.REWORK, of=", ".join(stands.rework))
    if stands.concessions:
        yield _fault(Keeps.CONCESSION, of=", ".join(stands.concessions))


def _money(stands: Standing) -> Iterator[Fault]:
    """No sum is named: whoever sees a shell out need not see what it costs."""
    if stands.invoice is None:
        yield _fault(Keeps.NOT_BILLED)
    elif not stands.cleared:
        code = DEALER_OWES if stands.dealers else f"keeps-{Keeps.BALANCE.value}"
        yield Fault(Keeps.BALANCE.value, code, {"invoice": stands.invoice})


def _packed(stands: Standing) -> Iterator[Fault]:
    packing = stands.packing
    if packing is None:
        yield _fault(Keeps.NOT_PACKED)
        return
    if not packing.consignee:
        yield _fault(Keeps.CONSIGNEE)
    if stands.abroad and not (packing.term.rule and packing.term.place):
        yield _fault(Keeps.TERM)
    if stands.untaxed and not packing.evidence:
        yield _fault(Keeps.EVIDENCE)
    if stands.abroad and any(one.timber for one in packing.packages) and not packing.timber_mark:
        yield _fault(Keeps.TIMBER)


def _primer(stands: Standing, today: date) -> Iterator[Fault]:
    """Past its day the primer is prepared anew, or whoever gets it says in writing that he knows."""
    if stands.overcoat_by is None or stands.overcoat_by >= today:
        return
    if not stands.acknowledged:
        yield _fault(Keeps.OVERCOAT, day=stands.overcoat_by)


@dataclass(frozen=True, slots=True)
class Owed:
    """What an order's invoice of some place leaves to pay, with tax, less what was credited on it."""

    document: str
    due: int


def left_open(left: Iterable[Owed], free: int) -> int:
    """What is not covered of the invoices of shells that left, and of one that is to leave, by the money that is free.

    Money is for whatever has left the house first: an invoice of a shell that stands here keeps waiting.
    """
    by_document = {one.document: one.due for one in left}
    return max(0, sum(by_document.values()) - free)


@dataclass(frozen=True, slots=True)
class Credit:
    """What a dealer may owe from `day` on, whole minor units with tax, in his own currency; 0 ends it."""

    dealer: str
    currency: str
    limit: int
    day: date
    why: str
    by: str
    at: datetime


def credit_on(told: Iterable[Credit], currency: str, today: date) -> int:
    """What holds today in that currency: the last that was said of those whose day has come."""
    held = [one for one in told if one.currency == currency and one.day <= today]
    return held[-1].limit if held else 0


@dataclass(frozen=True, slots=True)
class Despatched:
    """A shell that left. `number` as in D-2026-00001; `signed`: whose code signed it."""

    number: str
    shell: int
    place: int
    at: datetime
    by: str
    signed: str
