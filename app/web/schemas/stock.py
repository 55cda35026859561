"""Stock: what is built, free, held or an order's; what is offered of it. The only amounts are of offers."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_TEXT
from app.services.stock.stocking import MOST, MOST_HOURS
from app.web.fields import Amount, Base, Of, QueryWhole, Text, Whole, Words
from app.web.schemas.promises import MOST_SHELLS, ShellPromiseOut


class StockIn(Base):
    """As `line` (from 1) of that revision is specified, without its customer and donor car."""

    number = Text(required=True, most=40)
    letter = Text(required=True, most=4)
    line = Whole(least=1, most=1000, load_default=1)


class StockCapIn(Base):
    """How many shells may be planned or in the workshop for stock."""

    cap = Whole(least=0, most=MOST, required=True)


class StockHoursIn(Base):
    """For how many hours a shell is held for a quotation."""

    hours = Whole(least=1, most=MOST_HOURS, required=True)


class TakenFromStockIn(Base):
    """`shell`: its id in stock; `line` (from 1) of the draft becomes it."""

    shell = Whole(least=1, most=10**9 - 1, required=True)
    line = Whole(least=1, most=1000, load_default=1)


class AllocationIn(Base):
    """`shell` counts from 1 within the order."""

    order = Text(required=True, least=1, most=40)
    shell = Whole(least=1, most=MOST_SHELLS, required=True)


class SecondIn(Base):
    """`why`: which concession lets it be sold as it is."""

    why = Text(required=True, least=1, most=LONGEST_TEXT)


class ReservationOut(Base):
    quotation = fields.String()
    until = fields.DateTime()
    extended = fields.Boolean()
    by_name = fields.String()


class AllocatedOut(Base):
    order = fields.String()
    shell = fields.Integer()
    at = fields.DateTime()


class StockShellOut(Base):
    """`state` free, reserved, allocated or sold; `source` built, cancelled or second. `floor`: its id on the floor.

    `because`: the order for which it last made room; empty: it never did, or for a better order of the weeks. `stands`:
    as shells stand; `stage`: where it is. `days`: since the firm's money is in it, null while it is only planned.
    `returnable`: the order can give it back.
    """

    id = fields.Integer()
    number = fields.String()
    serial = fields.String(allow_none=True)
    floor = fields.Integer()
    what = fields.List(Words())
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    plan = Of(ShellPromiseOut)
    begun = fields.Boolean()
    act = fields.String()
    at = fields.DateTime()
    because = fields.String()
    state = fields.String()
    source = fields.String()
    came_from = fields.String()
    why = fields.String()
    stands = fields.String()
    stage = Words(allow_none=True)
    painted = fields.Boolean()
    days = fields.Integer(allow_none=True)
    reserved = Of(ReservationOut, allow_none=True)
    allocated = Of(AllocatedOut, allow_none=True)
    returnable = fields.Boolean()


class StockOut(Base):
    """`shells` by their slots, of `cap` that there may be; each is held for a quotation for `hours`."""

    cap = fields.Integer()
    hours = fields.Integer()
    shells = fields.List(Of(StockShellOut))


class StockDifferenceOut(Base):
    """`has` of the shell, `wanted` instead; `taken` free, priced, approval, or no: the shell keeps what it has."""

    option = fields.String()
    has = fields.String()
    wanted = fields.String()
    taken = fields.String()


class StockWorkOut(Base):
    stage = Words()
    text = Words()


class TakenOut(Base):
    """A shell of stock and what would be changed on it.

    `work` and `undone`: operations that it needs by the changes, and those that are undone; `work_days` that they add.
    """

    id = fields.Integer()
    name = fields.String()
    second = fields.Boolean()
    why = fields.String()
    finished = fields.Boolean()
    stage = Words(allow_none=True)
    differences = fields.List(Of(StockDifferenceOut))
    work = fields.List(Of(StockWorkOut))
    undone = fields.List(Of(StockWorkOut))
    work_days = fields.Integer()


class OffersIn(Base):
    """`shell` counts from 1 within the order."""

    shell = QueryWhole(least=1, most=MOST_SHELLS, required=True)


class OfferOut(TakenOut):
    """`promised`: from when the order's own would be ready, null without a slot; `days`: working days sooner than that.

    `asks`: a change on it takes the manager's yes.
    """

    ready = fields.Date()
    ready_by = fields.Date()
    promised = fields.Date(allow_none=True)
    days = fields.Integer(allow_none=True)
    asks = fields.Boolean()


class OffersOut(Base):
    """What is ready soonest first."""

    offers = fields.List(Of(OfferOut))


class MatchOut(TakenOut):
    """`fits`: it can become exactly what is wanted. `days`: working days sooner than a new one; negative: later.

    `price`: of what it becomes, less that of what is wanted, before tax. `held`: for somebody, until then.
    """

    fits = fields.Boolean()
    ready = fields.Date()
    ready_by = fields.Date()
    days = fields.Integer(allow_none=True)
    price = Amount()
    currency = fields.String()
    held = fields.DateTime(allow_none=True)


class MatchesOut(Base):
    """Those that fit first, then by the days that they save, then by price. `ready`: of a new one, if any was asked."""

    ready = fields.Date(allow_none=True)
    found = fields.List(Of(MatchOut))


class HeldOut(Base):
    """`id` in stock; `line`: that of the draft (from 1) which it is, null where none says so any longer."""

    id = fields.Integer()
    name = fields.String()
    until = fields.DateTime()
    extended = fields.Boolean()
    line = fields.Integer(allow_none=True)


class HeldForOut(Base):
    held = fields.List(Of(HeldOut))
