"""Idempotency keys: what was made under each, in the same transaction that made it, and the answer that was given."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlite_utils import Database

from app.store.texts import json_text, moment_text


@dataclass(frozen=True, slots=True)
class KeyKept:
    """`made` names the thing; `response` is what was answered, None where the answer never got as far as the store."""

    fingerprint: str
    made: Any
    response: Any


def get(db: Database, person: str, key: str) -> KeyKept | None:
    sql = "SELECT fingerprint, made, response FROM idempotency_keys WHERE person = ? AND key = ?"
    row = db.execute(sql, [person, key]).fetchone()
    return None if row is None else KeyKept(row[0], json.loads(row[1]), row[2] and json.loads(row[2]))


def add(db: Database, person: str, key: str, fingerprint: str, made: Any, now: datetime) -> None:
    sql = "INSERT INTO idempotency_keys (person, key, fingerprint, at, made) VALUES (?, ?, ?, ?, ?)"
    db.execute(sql, [person, key, fingerprint, moment_text(now), json_text(made)])


def answer(db: Database, person: str, key: str, response: Any) -> None:
    """Keeps the first answer given under the key; a later one changes nothing."""
    sql = "UPDATE idempotency_keys SET response = ? WHERE person = ? AND key = ? AND response IS NULL"
    db.execute(sql, [json_text(response), person, key])
