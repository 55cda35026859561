"""The owners of despatched shells that a safety fault concerns, row by row, for whoever posts the letters."""

from __future__ import annotations

from collections.abc import Iterable

from app.documents.lists.csv_table import table
from app.domain.floor.safety import Owner

_HEADER = (
    *("serial", "order", "shell", "despatched", "customer", "country", "language", "e_mail", "telephone", "address"),
    *("dealer", "written_at", "written_by"),
)


def owners_csv(owners: Iterable[Owner]) -> str:
    """A header line of ids, then a row for each shell."""
    return table(_HEADER, map(_row, owners))


def _row(owner: Owner) -> dict[str, str]:
    customer, written = owner.customer, owner.written
    told = {"serial": owner.serial, "order": owner.order, "shell": str(owner.place)}
    whom = {"customer": customer.name, "country": customer.country, "language": owner.language}
    where = {"e_mail": customer.email, "telephone": customer.telephone, "address": customer.address}
    sent = {} if written is None else {"written_at": written.at.isoformat(), "written_by": written.by}
    return {**told, "despatched": owner.despatched.isoformat(), **whom, **where, "dealer": owner.dealer or "", **sent}
