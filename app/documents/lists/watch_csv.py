"""What the manager watches, row by row, for a spreadsheet. Plain CSV as RFC 4180 writes it, a header line of ids first.

Amounts are in major units with a point, before tax, their currency beside them; what has no price is empty, never 0.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from app.documents.lists.csv_table import table
from app.documents.lists.standard_csv import major
from app.domain.quotations.refused import Refused
from app.domain.watched import Aged, Amiss, Declined, Discounted

#: With the columns that are our own figures.
_table = partial(table, figures=("nearest_net", "net", "before_discount", "discount", "minutes", "days"))


def refusals_csv(refused: Sequence[Refused]) -> str:
    """One row for each refusal and cause: `cause` counts them, since one refusal may have several."""
    header = ("at", "quotation", "shells", "cause", "rules_and_tools", "currency", "nearest_net")
    return _table(header, (row for one in refused for row in _refused(one)))


def declined_csv(declined: Sequence[Declined]) -> str:
    header = ("at", "quotation", "revision", "reason", "note", "currency", "net")
    return _table(header, map(_declined, declined))


def discounts_csv(discounted: Sequence[Discounted]) -> str:
    header = ("at", "quotation", "revision", "dealer", "currency", "before_discount", "discount")
    return _table(header, map(_discounted, discounted))


def amiss_csv(amiss: Sequence[Amiss]) -> str:
    header = ("at", "serial", "order", "subject", "amends", "standing", "minutes", "why")
    return _table(header, map(_amiss, amiss))


def stock_csv(stock: Sequence[Aged]) -> str:
    """`specification`: every option with its choice, as the rule book of that number names them."""
    return _table(("number", "since", "days", "ready", "rule_book", "specification"), map(_aged, stock))


def _refused(one: Refused) -> Iterator[dict[str, str]]:
    net = "" if one.net is None else major(one.net, one.currency)
    for number, cause in enumerate(one.causes, start=1):
        told = {"at": one.at.isoformat(), "quotation": one.quotation, "shells": str(one.quantity)}
        yield {
            **told,
            "cause": str(number),
            "rules_and_tools": " ".join(cause),
            **_money(one.currency, nearest_net=net),
        }


def _declined(one: Declined) -> dict[str, str]:
    told = {"at": one.at.isoformat(), "quotation": one.number, "revision": one.letter}
    said = {"reason": one.reason.value, "note": one.note}
    return {**told, **said, **_money(one.currency, net=major(one.net, one.currency))}


def _discounted(one: Discounted) -> dict[str, str]:
    told = {"at": one.at.isoformat(), "quotation": one.number, "revision": one.letter, "dealer": one.dealer or ""}
    amounts = {"before_discount": major(one.listed, one.currency), "discount": major(one.off, one.currency)}
    return {**told, **_money(one.currency, **amounts)}


def _money(currency: str, **amounts: str) -> dict[str, str]:
    return {"currency": currency, **amounts}


def _amiss(one: Amiss) -> dict[str, str]:
    told = {"at": one.at.isoformat(), "serial": one.serial, "order": one.order or "", "subject": str(one.subject)}
    minutes = "" if one.minutes is None else str(one.minutes)
    return {**told, "amends": one.amends.value, "standing": one.standing, "minutes": minutes, "why": one.why}


def _aged(one: Aged) -> dict[str, str]:
    days = {"since": one.since.isoformat(), "days": str(one.days), "ready": one.ready.isoformat()}
    made = " ".join(f"{option}={choice}" for option, choice in one.made.items())
    return {"number": one.number, **days, "rule_book": str(one.book), "specification": made}
