"""Countries, as a form offers them: the firm's usual ones first, the rest by name as the reader's language sorts it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from unicodedata import normalize

from babel import Locale
from babel.numbers import get_territory_currencies

from app.domain.asking.people import Action, Sort
from app.services.answering import countries
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.schemas.countries import CountriesOut
from app.wording import locale_of

blp = resource("countries", "Where customers live and shells go to.")


@blp.route("/countries", methods=["GET"])
@does(Action.ASK, Sort.BOOK)
@blp.response(200, CountriesOut)
def list_countries() -> Any:
    """Every country, named in the reader's language."""
    usual, other = countries.countries(here.store(), here.me(), here.now())
    named = [*_named(usual), *sorted(_named(other), key=lambda row: _sorted_by(row["name"]))]
    return {"countries": [{**row, "usual": row["code"] in usual} for row in named]}


def _named(codes: Iterable[str]) -> list[dict[str, Any]]:
    territories = Locale.parse(locale_of(here.language())).territories
    return [{"code": code, "name": str(territories.get(code, code)), "currency": _currency(code)} for code in codes]


def _currency(code: str) -> str | None:
    """What is paid with there now, the first of several (CLDR)."""
    return next(iter(get_territory_currencies(code)), None)


def _sorted_by(name: str) -> str:
    """An accented letter stands beside its plain one, as in a dictionary."""
    return normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
