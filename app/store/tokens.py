"""Tokens of dealers' own programs, under the hash of their secret. What is revoked stays on the list."""

from __future__ import annotations

import json
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.asking.token import ApiToken, Scope
from app.store.texts import json_text, maybe_moment, moment, moment_text


def add(db: Database, token: ApiToken, token_hash: str) -> int:
    """The id of the new token; the one it carries is not looked at."""
    row = {
        "dealer": token.dealer,
        "person": token.person,
        "label": token.label,
        "token_hash": token_hash,
        "scopes": json_text(list(token.scopes)),
        "made_at": moment_text(token.made_at),
        "expires_at": None if token.expires_at is None else moment_text(token.expires_at),
    }
    made: Any = db.table("api_tokens").insert(row).last_pk
    return int(made)


def get(db: Database, token: int, dealer: str | None) -> ApiToken | None:
    """`dealer` None: anybody's."""
    sql = "SELECT * FROM api_tokens WHERE id = ? AND (? IS NULL OR dealer = ?)"
    row = db.execute(sql, [token, dealer, dealer]).fetchone()
    return None if row is None else _token(row)


def by_hash(db: Database, token_hash: str) -> ApiToken | None:
    row = db.execute("SELECT * FROM api_tokens WHERE token_hash = ?", [token_hash]).fetchone()
    return None if row is None else _token(row)


def every(db: Database, dealer: str | None) -> tuple[ApiToken, ...]:
    """The last made first, those that are revoked after the others."""
    sql = "SELECT * FROM api_tokens WHERE (? IS NULL OR dealer = ?) ORDER BY revoked_at IS NOT NULL, id DESC"
    return tuple(map(_token, db.execute(sql, [dealer, dealer]).fetchall()))


def used(db: Database, token: int, now: datetime) -> None:
    db.execute("UPDATE api_tokens SET used_at = ? WHERE id = ?", [moment_text(now), token])


def revoke(db: Database, token: int, by: str, now: datetime) -> None:
    row = [moment_text(now), by, token]
    db.execute("UPDATE api_tokens SET revoked_at = ?, revoked_by = ? WHERE id = ?", row)


def revoke_all_of(db: Database, person: str, by: str, now: datetime) -> None:
    """Those that he made and that nobody has revoked."""
    row = [moment_text(now), by, person]
    db.execute("UPDATE api_tokens SET revoked_at = ?, revoked_by = ? WHERE person = ? AND revoked_at IS NULL", row)


def _token(row: Row) -> ApiToken:
    plain = ("id", "dealer", "person", "label", "revoked_by")
    return ApiToken(
        scopes=tuple(Scope(scope) for scope in json.loads(row["scopes"])),
        made_at=moment(row["made_at"]),
        expires_at=maybe_moment(row["expires_at"]),
        used_at=maybe_moment(row["used_at"]),
        revoked_at=maybe_moment(row["revoked_at"]),
        **{name: row[name] for name in plain},
    )
