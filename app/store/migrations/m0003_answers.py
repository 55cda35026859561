"""The customer's answer to what is out, and papers that are drawn when somebody first asks for them."""

from __future__ import annotations

from sqlite_utils import Database

#: What the customer said, beside the act that records it: when, who on his side, and why where it was no.
ANSWERS = (
    "ALTER TABLE revision_acts ADD COLUMN said_at TEXT",
    "ALTER TABLE revision_acts ADD COLUMN said_by TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE revision_acts ADD COLUMN reason TEXT "
    "CHECK (reason IS NULL OR reason IN ('price', 'date', 'detail', 'identity', 'other'))",
)

_A_DRAFT = "NEW.revision NOT IN (SELECT id FROM revisions WHERE issued_at IS NOT NULL)"


def up(db: Database) -> None:
    """A paper may still come to an issued revision, none is ever replaced; nothing of the sort comes to a draft."""
    for statement in ANSWERS:
        db.execute(statement)
    db.execute("DROP TRIGGER papers_frozen_on_insert")
    for table in ("papers", "revision_acts"):
        db.execute(
            f"CREATE TRIGGER {table}_not_of_a_draft BEFORE INSERT ON {table} WHEN {_A_DRAFT} "
            "BEGIN SELECT RAISE(ABORT, 'a draft has neither papers nor answers: they only come once it is issued'); END"
        )
