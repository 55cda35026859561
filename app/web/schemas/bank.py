"""Bank details, how a change was confirmed, and what a second person said of it."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.money.bank import Account, Confirmation, How
from app.web.fields import Base, Day, Flag, Of, OneOf, Text


class BankProposalIn(Base):
    """`account`: an IBAN or a number as its country writes it; `routing`: BIC, sort code or the like.

    `how` it was confirmed, by whom (`spoken_to`) and on which `day`; a call goes to a `known_number` from before.
    """

    holder = Text(required=True, least=1)
    account = Text(required=True, least=1)
    routing = Text(load_default="")
    bank = Text(load_default="")
    how = OneOf(tuple(one.value for one in How), required=True)
    spoken_to = Text(required=True, least=1)
    known_number = Text(load_default="")
    day = Day(required=True)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> tuple[Account, Confirmation]:
        account = Account(**{name: data[name].strip() for name in ("holder", "account", "routing", "bank")})
        known = data["known_number"].strip()
        return account, Confirmation(How(data["how"]), data["spoken_to"].strip(), data["day"], known)


class BankAnswerIn(Base):
    """`agreed` false turns it down, for which a `why` is needed."""

    agreed = Flag(required=True)
    why = Text(load_default="")


class BankAnswerOut(Base):
    agreed = fields.Boolean()
    why = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class BankProposalOut(Base):
    """`mine`: proposed by the reader himself, who can't agree to it. `customer` null: the firm's own."""

    id = fields.Integer()
    customer = fields.Integer(allow_none=True)
    name = fields.String()
    holder = fields.String()
    account = fields.String()
    routing = fields.String()
    bank = fields.String()
    how = fields.String()
    spoken_to = fields.String()
    known_number = fields.String()
    day = fields.Date()
    at = fields.DateTime()
    by_name = fields.String()
    mine = fields.Boolean()
    answer = Of(BankAnswerOut, allow_none=True)


class BankDetailsOut(Base):
    """`holds`: what two people agreed on last; `waits`: for a second one; `proposals`: all, the last first."""

    customer = fields.Integer(allow_none=True)
    holds = Of(BankProposalOut, allow_none=True)
    waits = Of(BankProposalOut, allow_none=True)
    proposals = fields.List(Of(BankProposalOut))


class BankWaitingOut(Base):
    waiting = fields.List(Of(BankProposalOut))
