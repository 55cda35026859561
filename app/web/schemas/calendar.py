"""The calendar of the shop. No amount is among it."""

from __future__ import annotations

from marshmallow import fields

from app.services.planning.shop_calendar import MOST_WEEKS
from app.web.fields import Base, Day, Of, QueryWhole, Text, Words
from app.web.schemas.promises import DueOut, ShellPromiseOut


class CalendarIn(Base):
    """From the week of `first` on (this week, where it is left out), so many `weeks`."""

    first = Day(load_default=None)
    weeks = QueryWhole(least=1, most=MOST_WEEKS, load_default=6)


class CalendarPaperIn(CalendarIn):
    """`language`: the reader's own, where it is left out. One sheet holds 13 weeks."""

    weeks = QueryWhole(least=1, most=13, load_default=13)
    language = Text(load_default="")


class ClosedOut(Base):
    """`closure` true: the firm's own; else a public holiday. `says`: which."""

    day = fields.Date()
    closure = fields.Boolean()
    says = fields.String()


class CalendarWeekOut(Base):
    """`week`: ISO 8601."""

    monday = fields.Date()
    week = fields.String()
    closed = fields.List(Of(ClosedOut))


class WeekLoadOut(Base):
    """Slots, or days of a bay, as decimals: `used` of `takes`; `line` is what is planned at most. `over` the line."""

    monday = fields.Date()
    used = fields.String()
    takes = fields.String()
    line = fields.String()
    over = fields.Boolean()


class ChangeoverOut(Base):
    """`slots` of the week from `monday` are lost to a change of kind, `behind` this shell or before it."""

    monday = fields.Date()
    slots = fields.String()
    number = fields.String()
    shell = fields.Integer()
    behind = fields.Boolean()


class CalendarRowOut(Base):
    """`is_slot`: its days are the slots. `per_week` slots, or `bays`: what it takes; the other is null.

    `changes_of`: the option whose change costs slots.
    """

    stage = fields.String()
    label = Words()
    is_slot = fields.Boolean()
    changes_of = fields.String(allow_none=True)
    per_week = fields.String(allow_none=True)
    bays = fields.Integer(allow_none=True)
    weeks = fields.List(Of(WeekLoadOut))
    changes = fields.List(Of(ChangeoverOut))


class VisitOut(Base):
    """In from `start`, on to the next on `end`; `kind`: its choice of what the stage changes over for."""

    stage = fields.String()
    start = fields.Date()
    end = fields.Date()
    kind = fields.String()


class TicketOut(Base):
    """`waits`: gates not through. `late`: the promise no longer holds as things stand. `begun`: it can't move."""

    number = fields.String()
    shell = fields.Integer()
    customer = fields.String()
    what = fields.List(Words())
    promise = Of(ShellPromiseOut)
    visits = fields.List(Of(VisitOut))
    waits = fields.List(Of(DueOut))
    begun = fields.Boolean()
    late = fields.Boolean()


class StockTicketOut(Base):
    """Built for stock: nobody is promised it, and it gives way."""

    number = fields.String()
    what = fields.List(Words())
    promise = Of(ShellPromiseOut)
    visits = fields.List(Of(VisitOut))
    begun = fields.Boolean()


class DownOut(Base):
    tool = fields.String()
    label = Words()
    until = fields.Date(allow_none=True)


class CalendarOut(Base):
    today = fields.Date()
    percent = fields.String()
    over_weeks = fields.Integer()
    weeks = fields.List(Of(CalendarWeekOut))
    rows = fields.List(Of(CalendarRowOut))
    tickets = fields.List(Of(TicketOut))
    stock = fields.List(Of(StockTicketOut))
    down = fields.List(Of(DownOut))
