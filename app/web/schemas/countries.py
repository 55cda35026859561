"""Countries by their codes and what the reader calls them."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of


class CountryOut(Base):
    """`code`: ISO 3166-1 alpha-2. `currency`: ISO 4217, null where none is usual. `usual`: often dealt with."""

    code = fields.String()
    name = fields.String()
    currency = fields.String(allow_none=True)
    usual = fields.Boolean()


class CountriesOut(Base):
    countries = fields.List(Of(CountryOut))
