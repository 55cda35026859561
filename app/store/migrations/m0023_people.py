"""People are disabled and enabled again, never deleted; a first password is good for choosing one's own.

That a manager is left who can sign in is held by a guard, whatever the service does.
"""

from __future__ import annotations

from sqlite_utils import Database

COLUMNS = (
    "ALTER TABLE person ADD COLUMN disabled_at TEXT",
    "ALTER TABLE person ADD COLUMN first_password INTEGER NOT NULL DEFAULT 0 CHECK (first_password IN (0, 1))",
)

_NO_OTHER_MANAGER = (
    "NOT EXISTS (SELECT 1 FROM person WHERE role = 'manager' AND disabled_at IS NULL AND name <> OLD.name)"
)

#: Trigger, when it speaks, and what it says.
GUARDS = (
    ("person_no_delete", "BEFORE DELETE ON person", "a person is disabled, not deleted"),
    (
        "person_last_manager",
        "BEFORE UPDATE OF disabled_at ON person WHEN NEW.disabled_at IS NOT NULL AND OLD.role = 'manager' "
        f"AND {_NO_OTHER_MANAGER}",
        "a manager has to be left",
    ),
)


def up(db: Database) -> None:
    """Everybody who is there may go on with the password that he has."""
    for statement in COLUMNS:
        db.execute(statement)
    db.execute("CREATE INDEX history_by_person ON history (by, at, id)")
    for name, when, says in GUARDS:
        db.execute(f"CREATE TRIGGER {name} {when} BEGIN SELECT RAISE(ABORT, '{says}'); END")
