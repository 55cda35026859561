"""A change note: what changes on one shell after its order was confirmed, at what price and days, and who agreed to it.

Nothing of the shell changes before the customer has signed; what the signature made of it is kept with it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum

from app.domain.floor.shell import Stop
from app.domain.quotations.quotation import DeliveryPlace, FrozenLine
from rules.answer import Depends
from rules.model import Allowed
from rules.money.totals import CaseTotal, Totals


class Said(StrEnum):
    """What is said to a note; only an approval leaves it open."""

    APPROVED = "approved"
    TURNED_DOWN = "turned-down"
    SIGNED = "signed"
    WITHDRAWN = "withdrawn"


class Standing(StrEnum):
    """How a note stands."""

    WAITS_FOR_APPROVAL = "waits-for-approval"
    WAITS_FOR_SIGNATURE = "waits-for-signature"
    SIGNED = "signed"
    TURNED_DOWN = "turned-down"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Wish:
    """What the customer wants otherwise: `choices` option → choice. `place` None: it goes where it was to go.

    `charge`: what the firm takes for the work beside the price of the list, before tax, whole minor units.
    """

    choices: Mapping[str, str]
    place: DeliveryPlace | None = None
    charge: int = 0


@dataclass(frozen=True, slots=True)
class OptionChange:
    """`before` and `after` are choices of the option; `taken`: how the book takes it at the stage of the shell."""

    option: str
    before: str
    after: str
    taken: Allowed


@dataclass(frozen=True, slots=True)
class PlaceChange:
    """Where the goods go, and on what term."""

    before: DeliveryPlace
    after: DeliveryPlace
    taken: Allowed


@dataclass(frozen=True, slots=True)
class PriceRow:
    """A line of the price before tax; None on the side where the shell has no such line."""

    line: str
    before: int | None
    after: int | None


@dataclass(frozen=True, slots=True)
class Difference:
    """What the order comes to more (less, below nothing) under one tax case, and what it is payable by then."""

    kind: str
    net: int
    tax: int
    payable: int
    whole: int

    @property
    def gross(self) -> int:
        return self.net + self.tax


@dataclass(frozen=True, slots=True)
class Range:
    """Ready from `ready` to `ready_by`."""

    ready: date
    ready_by: date


@dataclass(frozen=True, slots=True)
class Content:
    """What a note says. `come`: the points that the shell had come into (`floor.shell.points`), `stage` the last.

    `gained`: what the shell depends on newly. `days`: working days by which it is ready later. `before`, `after` None:
    it had no slot. `frozen`: what the shell is, once it is signed.
    """

    dated: date
    author: str
    why: str
    come: tuple[str, ...]
    changes: tuple[OptionChange, ...]
    place: PlaceChange | None
    charge: int
    currency: str
    prices: tuple[PriceRow, ...]
    differences: tuple[Difference, ...]
    gained: Depends
    days: int
    before: Range | None
    after: Range | None
    frozen: FrozenLine

    @property
    def wish(self) -> Wish:
        place = None if self.place is None else self.place.after
        return Wish({one.option: one.after for one in self.changes}, place, self.charge)

    @property
    def needs_approval(self) -> bool:
        """Where the table of the book, or a rule that speaks newly, leaves it to the manager."""
        taken = [one.taken for one in self.changes] + ([] if self.place is None else [self.place.taken])
        return Allowed.APPROVAL in taken or bool(self.gained.approvals)


@dataclass(frozen=True, slots=True)
class Effect:
    """What a signature made of the shell and its order. `route` empty while the shell is planned."""

    frozen: FrozenLine
    route: tuple[Stop, ...]
    totals: Totals
    place: DeliveryPlace | None = None


@dataclass(frozen=True, slots=True)
class NoteAct:
    """`who`: the customer's man who signed, "" for any other act; `day` on which it was said; `by` recorded it."""

    said: Said
    who: str
    day: date
    why: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class ChangeNote:
    """`number` as in CN-2026-00001; `shell` its key."""

    id: int
    number: str
    shell: int
    content: Content
    at: datetime
    by: str
    acts: tuple[NoteAct, ...] = ()

    @property
    def standing(self) -> Standing:
        ended = next((one.said for one in self.acts if one.said is not Said.APPROVED), None)
        if ended is not None:
            return Standing(ended.value)
        waits = self.content.needs_approval and not self.acts
        return Standing.WAITS_FOR_APPROVAL if waits else Standing.WAITS_FOR_SIGNATURE

    @property
    def open(self) -> bool:
        """Somebody's word is waited for."""
        return self.standing in (Standing.WAITS_FOR_APPROVAL, Standing.WAITS_FOR_SIGNATURE)


def differences(before: Totals, after: Totals, decided: str | None) -> tuple[Difference, ...]:
    """Under each case in question after it; before it that of the same kind, or the one that held, is compared."""
    held = [one for one in after.cases if after.decided or decided is None or one.kind == decided] or [*after.cases]
    pairs = ((_case_before(before, one.kind, decided), one) for one in held)
    return tuple(_difference(was, now) for was, now in pairs)


def with_deposit_of(before: Totals, after: Totals, decided: str | None) -> Totals:
    """The same, with the deposit as it was agreed: what a change costs is paid with the balance."""
    pairs = ((_case_before(before, one.kind, decided), one) for one in after.cases)
    return replace(after, cases=tuple(_with_deposit(was, now) for was, now in pairs))


def _with_deposit(was: CaseTotal, now: CaseTotal) -> CaseTotal:
    balance = now.sum.payable - was.deposit
    return replace(now, deposit=was.deposit, deposit_tax=was.deposit_tax, balance=balance)


def _case_before(before: Totals, kind: str, decided: str | None) -> CaseTotal:
    cases: Sequence[CaseTotal] = before.cases
    named = next((one for one in cases if one.kind == (decided or kind)), None)
    return named or next((one for one in cases if one.kind == kind), cases[0])


def _difference(was: CaseTotal, now: CaseTotal) -> Difference:
    net, tax = now.sum.without_tax - was.sum.without_tax, now.sum.tax - was.sum.tax
    return Difference(now.kind, net, tax, now.sum.payable - was.sum.payable, now.sum.payable)
