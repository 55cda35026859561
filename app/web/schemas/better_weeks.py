"""A better order of the next weeks' slots. No amount is among it."""

from __future__ import annotations

from marshmallow import fields

from app.services.planning.bettering import MOST_WEEKS
from app.web.fields import Base, Of, QueryWhole, Text, Whole
from app.web.schemas.promises import ProposalOut


class BetterWeeksIn(Base):
    """The rest of this week and so many `weeks` after it."""

    weeks = QueryWhole(least=1, most=MOST_WEEKS, load_default=4)


class BetterWeeksAgreedIn(Base):
    """`token`: of the list of what moves, as it was shown."""

    weeks = Whole(least=1, most=MOST_WEEKS, required=True)
    token = Text(required=True, least=1)


class OrderMeritOut(Base):
    """`late`: working days of all promised ranges that are used up."""

    changeovers = fields.Integer()
    late = fields.Integer()


class StaysOut(Base):
    """`why`: late (it can't keep its date as things stand) or other-book (dated by other days than the book's now)."""

    number = fields.String()
    shell = fields.Integer()
    why = fields.String()
    says = fields.String()


class BetterWeeksOut(Base):
    """`better` null: no better order was found. `whole`: every order was weighed. `says`: all of it in one sentence."""

    weeks = fields.Integer()
    today = fields.Date()
    last = fields.Date()
    shells = fields.Integer()
    now = Of(OrderMeritOut, allow_none=True)
    better = Of(OrderMeritOut, allow_none=True)
    whole = fields.Boolean()
    says = fields.String()
    stays = fields.List(Of(StaysOut))
    proposal = Of(ProposalOut)
