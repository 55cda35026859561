"""Cancelling one shell of an order by a worksheet."""

from __future__ import annotations

from marshmallow import fields

from app.domain.money.crediting import LONGEST_WHY
from app.web.fields import Amount, Base, Text, Whole, Words
from app.web.schemas.floor import ShellWhyIn
from app.web.schemas.orders import MOST_MONEY


class CancelIn(ShellWhyIn):
    """`kept`: what the firm keeps of what was billed in advance, with tax, whole minor units; left out: no worksheet.

    `hours`, `resale`: what it was decided by, as somebody wrote it; the stage is the shell's own.
    """

    kept = Whole(load_default=None, allow_none=True, least=0, most=MOST_MONEY)
    hours = Text(most=LONGEST_WHY, load_default="")
    resale = Text(most=LONGEST_WHY, load_default="")


class CancellingOut(Base):
    """`received`: billed in advance of the whole order, with tax. `refundable`: a worksheet can be written.

    `from_stock`: it was not made to the customer's specification; `says`: what has to be asked before anything is kept.
    """

    order = fields.String()
    shell = fields.Integer()
    serial = fields.String()
    stage = Words(allow_none=True)
    from_stock = fields.Boolean()
    currency = fields.String()
    received = Amount()
    refundable = fields.Boolean()
    says = fields.String()
