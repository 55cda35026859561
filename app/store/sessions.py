"""Sign-ins in force, under the hash of their token, and failed tries. Times are UTC as ISO text, so that they sort."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.people import Person
from app.store.people import person_of


@dataclass(frozen=True, slots=True)
class SignIn:
    """One sign-in of one person; `prices_shown` and `language` hold for it alone.

    `first_password`: he has yet to choose his own.
    """

    person: Person
    prices_shown: bool
    language: str
    first_password: bool = False


def keep_sign_in(db: Database, token_hash: str, sign_in: SignIn, now: datetime, until: datetime) -> None:
    """Keep a new sign-in, and forget those that ran out."""
    db.conn.execute("DELETE FROM sign_in WHERE expires_at <= ?", [now.isoformat()])
    db.conn.execute(
        "INSERT INTO sign_in (token_hash, person, prices_shown, language, created_at, expires_at)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        [token_hash, sign_in.person.name, sign_in.prices_shown, sign_in.language, now.isoformat(), until.isoformat()],
    )


def sign_in_of(db: Database, token_hash: str, now: datetime) -> SignIn | None:
    """The sign-in with this token, unless it has run out or the person was disabled."""
    row = db.conn.execute(
        "SELECT person.*, sign_in.prices_shown, sign_in.language AS reads"
        " FROM sign_in JOIN person ON person.name = sign_in.person"
        " WHERE token_hash = ? AND expires_at > ? AND person.disabled_at IS NULL",
        [token_hash, now.isoformat()],
    ).fetchone()
    if row is None:
        return None
    return SignIn(person_of(row), bool(row["prices_shown"]), row["reads"], bool(row["first_password"]))


def change_sign_in(db: Database, token_hash: str, prices_shown: bool, language: str) -> None:
    """Set what the reader may set."""
    db.conn.execute(
        "UPDATE sign_in SET prices_shown = ?, language = ? WHERE token_hash = ?", [prices_shown, language, token_hash]
    )


def end_sign_in(db: Database, token_hash: str) -> None:
    """Forget it."""
    db.conn.execute("DELETE FROM sign_in WHERE token_hash = ?", [token_hash])


def end_sign_ins_of(db: Database, person: str, but: str = "") -> None:
    """Forget all of his but the one with the token hash `but`."""
    db.conn.execute("DELETE FROM sign_in WHERE person = ? AND token_hash <> ?", [person, but])


def note_failed_try(db: Database, name: str, address: str, now: datetime, since: datetime) -> None:
    """Write a failed try down, and forget those before `since`."""
    db.conn.execute("DELETE FROM failed_try WHERE at <= ?", [since.isoformat()])
    db.conn.execute("INSERT INTO failed_try (name, address, at) VALUES (?, ?, ?)", [name, address, now.isoformat()])


def failed_tries(
    db: Database, since: datetime, *, name: str | None = None, address: str | None = None
) -> list[datetime]:
    """When it failed since then: for a name, for an address, or for both together; the latest last."""
    rows = db.conn.execute(
        "SELECT at FROM failed_try WHERE at > ? AND (? IS NULL OR name = ?) AND (? IS NULL OR address = ?) ORDER BY at",
        [since.isoformat(), name, name, address, address],
    )
    return [datetime.fromisoformat(row["at"]) for row in rows]


def forget_failed_tries(db: Database, name: str, address: str) -> None:
    """Forget what failed for this name from this address: he is in."""
    db.conn.execute("DELETE FROM failed_try WHERE name = ? AND address = ?", [name, address])
