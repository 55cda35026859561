"""A shell of stock: a specification without customer and donor car, on the floor like any other, and whose it is now.

It was built for stock, was cancelled in mid-build or finished, or was rejected and is sold as a second. While it waits
for its slot nobody was promised it, so it gives way.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import Enum

from app.domain.floor.shell import Deed, Done, ShellState
from app.domain.orders.order import Shell
from rules.schedule.promise import Promise


class StockAct(Enum):
    """What was last done with it."""

    TAKEN = "taken"
    MOVED = "moved"
    WITHDRAWN = "withdrawn"


def stock_number(key: int) -> str:
    """As in S-00007: of a shell of stock, before and beside its serial."""
    return f"S-{key:05}"


class Source(Enum):
    """How a shell came into stock. SECOND: it was rejected, and is sold as it is."""

    BUILT = "built"
    CANCELLED = "cancelled"
    SECOND = "second"


class StockState(Enum):
    """Whose a shell of stock is: SOLD once the order that it went to is confirmed."""

    FREE = "free"
    RESERVED = "reserved"
    ALLOCATED = "allocated"
    SOLD = "sold"


class Unready(Enum):
    """Why a shell of stock can't be done that with, as it stands."""

    NOT_RELEASED = "stock-not-released"
    ON_HOLD = "stock-on-hold"
    NOT_RESERVED = "stock-not-reserved"
    EXTENDED = "stock-extended"
    NOT_ALLOCATED = "stock-not-allocated"
    SOLD = "stock-sold"
    SEAT_BUILT = "stock-seat-built"
    NO_SECOND = "stock-no-second"


@dataclass(frozen=True, slots=True)
class StockShell:
    """`book`: number of the rule book it is built by; `settled`: option → choice. `plan`: its days as they stand.

    `act` was done `at`, `because` of the order that needed its slot, else empty. `shell`: its key on the floor;
    `came_from`: the order that it was built for before, and `why` it no longer is; `last_deed`: the key of
    the last that was done to it by then.
    """

    id: int
    book: int
    settled: Mapping[str, str]
    made_at: datetime
    made_by: str
    plan: Promise
    act: StockAct
    at: datetime
    because: str = ""
    shell: int = 0
    source: Source = Source.BUILT
    came_from: str = ""
    why: str = ""
    last_deed: int = 0

    @property
    def number(self) -> str:
        return stock_number(self.id)

    def begun(self, today: date) -> bool:
        """Its slot has come: it is in the workshop and gives way no more."""
        return self.plan.slot <= today


@dataclass(frozen=True, slots=True)
class StockMove:
    """A stock shell that makes room: its days before and after."""

    shell: StockShell
    after: Promise


@dataclass(frozen=True, slots=True)
class Reservation:
    """For a quotation, until a moment; `settled`: what that quotation makes of the shell. It is extended once."""

    id: int
    quotation: str
    settled: Mapping[str, str]
    at: datetime
    by: str
    until: datetime
    extended: bool = False


@dataclass(frozen=True, slots=True)
class Allocation:
    """To an order, as its shell number `seat`. `key`: the order's; `last_deed`: as of stock.

    `loose`: it was given once the order had been confirmed, so that nothing confirmed names it, and nothing was done to
    it since.
    """

    key: int
    order: str
    seat: int
    at: datetime
    by: str
    last_deed: int = 0
    loose: bool = False


@dataclass(frozen=True, slots=True)
class InStock:
    """A shell of stock with how far it is built, and whose it is. `reserved` may have run out.

    `billed`: the order that has it was sent the invoice of its balance.
    """

    stock: StockShell
    shell: Shell
    reserved: Reservation | None = None
    allocated: Allocation | None = None
    sold: bool = False
    billed: bool = False

    @property
    def name(self) -> str:
        """Its serial, once it has one."""
        return self.shell.serial or self.stock.number

    @property
    def finished(self) -> bool:
        return self.shell.state in (ShellState.READY, ShellState.DESPATCHED)

    @property
    def returnable(self) -> bool:
        """Whether the order can still give it back: nothing that the customer has in hand names it."""
        return self.allocated is not None and not self.billed and (not self.sold or self.allocated.loose)

    def holder(self, now: datetime) -> Reservation | None:
        """Who has it reserved at that moment; a reservation runs out by itself."""
        return self.reserved if self.reserved is not None and now < self.reserved.until else None

    def state(self, now: datetime) -> StockState:
        if self.allocated is not None:
            return StockState.SOLD if self.sold else StockState.ALLOCATED
        return StockState.FREE if self.holder(now) is None else StockState.RESERVED

    def age(self, today: date) -> int:
        """Calendar days for which the firm's money has been in it: since it was released for stock, or came into it."""
        released = (done.at for done in self.shell.deeds if done.deed is Deed.RELEASED)
        since = max(next(released, self.stock.made_at), self.stock.made_at)
        return (today - since.date()).days

    def unready(self) -> Unready | None:
        """Why nobody can have it yet: only what is in the workshop or finished is a shell."""
        if not self.shell.deeds:
            return Unready.NOT_RELEASED
        return Unready.ON_HOLD if self.shell.state is ShellState.ON_HOLD else None


def reserved_until(now: datetime, hours: int) -> datetime:
    """The moment from which a reservation made now holds no more."""
    return now + timedelta(hours=hours)


#: Deeds that end a shell's way under an order.
_ENDS = (Deed.CANCELLED, Deed.REJECTED)


def own_deeds(deeds: Sequence[tuple[int, Done]], last: int | None = None) -> tuple[Done, ...]:
    """Those that speak of the shell to whoever has it, up to its own end; each with its key, in their order.

    `last`: the key of the last one when he got it (None: it was begun for him); an end up to there was another's.
    """
    kept = [done for key, done in deeds if done.deed not in _ENDS or last is None or key > last]
    end = next((at for at, done in enumerate(kept, 1) if done.deed in _ENDS), len(kept))
    return tuple(kept[:end])
