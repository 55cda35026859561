"""People and their password hashes. Whether a password fits is not decided here."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.people import Person, Role


def add_person(db: Database, person: Person, password_hash: str, now: datetime) -> None:
    """Keep a new person; sqlite3.IntegrityError where the name is taken."""
    db.conn.execute(
        "INSERT INTO person (name, display_name, role, dealer, language, password, created_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        [person.name, person.display_name, person.role, person.dealer, person.language, password_hash, now.isoformat()],
    )


def person_and_hash(db: Database, name: str) -> tuple[Person, str] | None:
    """The person who signs in with this name, and his password's hash."""
    row = db.conn.execute("SELECT * FROM person WHERE name = ?", [name]).fetchone()
    return None if row is None else (person_of(row), row["password"])


def set_hash(db: Database, name: str, password_hash: str) -> None:
    """Replace a password's hash."""
    db.conn.execute("UPDATE person SET password = ? WHERE name = ?", [password_hash, name])


def people(db: Database) -> tuple[Person, ...]:
    """Everybody, in the order they were added."""
    return tuple(person_of(row) for row in db.conn.execute("SELECT * FROM person ORDER BY created_at, rowid"))


def person_of(row: object) -> Person:
    """A row of the table person as a Person."""
    values = dict(row)  # type: ignore[call-overload]
    return Person(values["name"], values["display_name"], Role(values["role"]), values["dealer"], values["language"])
