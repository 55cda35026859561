"""How each dealer heads his own offers and what he puts on the list: the last word counts, the earlier ones stay."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlite_utils import Database

from app.domain.quotations.retail import RetailTerms
from app.store.texts import moment, moment_text


@dataclass(frozen=True, slots=True)
class Said:
    """The terms, and who said them when."""

    terms: RetailTerms
    at: datetime
    by: str


def get(db: Database, dealer: str) -> Said | None:
    """What the dealer said last; None: nothing yet."""
    sql = "SELECT * FROM retail_terms WHERE dealer = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [dealer]).fetchone()
    if row is None:
        return None
    margin = None if row["margin"] is None else Decimal(row["margin"])
    return Said(RetailTerms(row["address"], row["telephone"], row["email"], margin), moment(row["at"]), row["by"])


def put(db: Database, dealer: str, terms: RetailTerms, by: str, now: datetime) -> None:
    """From now on."""
    row = {
        "dealer": dealer,
        "address": terms.address,
        "telephone": terms.telephone,
        "email": terms.email,
        "margin": None if terms.margin is None else str(terms.margin),
        "at": moment_text(now),
        "by": by,
    }
    db.table("retail_terms").insert(row)
