"""Dealers, their trade terms, and the firm's own particulars."""

from __future__ import annotations

import json
from decimal import Decimal
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.customers.dealer import Dealer
from app.store.texts import json_text


def put(db: Database, dealer: Dealer) -> None:
    """Adds the dealer, or replaces him and his terms."""
    columns = ("id", "name", "country", "language", "units", "price_list")
    db.table("dealers").upsert({name: getattr(dealer, name) for name in columns}, pk="id")
    db.execute("DELETE FROM trade_terms WHERE dealer = ?", [dealer.id])
    for category, percent in dealer.discounts.items():
        db.execute("INSERT INTO trade_terms VALUES (?, ?, ?)", [dealer.id, category, str(percent)])


def get(db: Database, dealer: str) -> Dealer | None:
    row = db.execute("SELECT * FROM dealers WHERE id = ?", [dealer]).fetchone()
    return None if row is None else _dealer(db, row)


def every(db: Database) -> tuple[Dealer, ...]:
    """All of them, by name."""
    return tuple(_dealer(db, row) for row in db.execute("SELECT * FROM dealers ORDER BY name").fetchall())


def put_firm(db: Database, particulars: dict[str, Any]) -> None:
    """The firm as it heads its papers: plain JSON, whose fields the paper knows."""
    db.table("firm").upsert({"id": 1, "data": json_text(particulars)}, pk="id")


def firm(db: Database) -> dict[str, Any]:
    """Empty while nobody has said who the firm is."""
    row = db.execute("SELECT data FROM firm WHERE id = 1").fetchone()
    particulars: dict[str, Any] = {} if row is None else json.loads(row[0])
    return particulars


def _dealer(db: Database, row: Row) -> Dealer:
    terms = db.execute("SELECT category, percent FROM trade_terms WHERE dealer = ? ORDER BY category", [row["id"]])
    return Dealer(**dict(row), discounts={category: Decimal(percent) for category, percent in terms})
