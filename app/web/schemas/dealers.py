"""Dealers as the office sees them; trade discounts are about money and hide with it."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of


class DealerOut(Base):
    id = fields.String()
    name = fields.String()
    country = fields.String()
    language = fields.String()
    units = fields.String()
    price_list = fields.String()


class DealersOut(Base):
    dealers = fields.List(Of(DealerOut))
