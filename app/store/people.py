"""People and their password hashes. Whether a password fits is not decided here."""

from __future__ import annotations

from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.asking.members import Member
from app.domain.asking.people import Person, Role
from app.store.texts import maybe_moment


def add_person(
    db: Database, person: Person, password_hash: str, now: datetime, *, first_password: bool = False
) -> None:
    """Keep a new person; sqlite3.IntegrityError where the name is taken."""
    db.conn.execute(
        "INSERT INTO person (name, display_name, role, dealer, language, password, created_at, first_password)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        [*_columns(person), password_hash, now.isoformat(), first_password],
    )


def person_and_hash(db: Database, name: str) -> tuple[Person, str] | None:
    """The person who signs in with this name, and his password's hash; nobody where he is disabled."""
    row = db.conn.execute("SELECT * FROM person WHERE name = ? AND disabled_at IS NULL", [name]).fetchone()
    return None if row is None else (person_of(row), row["password"])


def set_hash(db: Database, name: str, password_hash: str, *, first_password: bool) -> None:
    """Replace a password's hash; `first_password`: it is one that he has yet to change for his own."""
    row = [password_hash, first_password, name]
    db.conn.execute("UPDATE person SET password = ?, first_password = ? WHERE name = ?", row)


def disable(db: Database, name: str, now: datetime) -> None:
    db.conn.execute("UPDATE person SET disabled_at = ? WHERE name = ?", [now.isoformat(), name])


def enable(db: Database, name: str) -> None:
    db.conn.execute("UPDATE person SET disabled_at = NULL WHERE name = ?", [name])


def member(db: Database, name: str) -> Member | None:
    row = db.conn.execute("SELECT * FROM person WHERE name = ?", [name]).fetchone()
    return None if row is None else _member(row)


def members(db: Database) -> tuple[Member, ...]:
    """Everybody, in the order they were added."""
    return tuple(map(_member, db.conn.execute("SELECT * FROM person ORDER BY created_at, rowid")))


def people(db: Database) -> tuple[Person, ...]:
    """Everybody, in the order they were added."""
    return tuple(member.person for member in members(db))


def _columns(person: Person) -> list[str | None]:
    return [person.name, person.display_name, person.role, person.dealer, person.language]


def _member(row: Row) -> Member:
    added, disabled = datetime.fromisoformat(row["created_at"]), maybe_moment(row["disabled_at"])
    return Member(person_of(row), added, disabled, bool(row["first_password"]))


def person_of(row: object) -> Person:
    """A row of the table person as a Person."""
    values = dict(row)  # type: ignore[call-overload]
    return Person(values["name"], values["display_name"], Role(values["role"]), values["dealer"], values["language"])
