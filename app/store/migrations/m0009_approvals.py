"""Approvals asked for and answered, texts that were sent, and up to where a draft's author has seen what moved."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE approvals (
  id INTEGER PRIMARY KEY,
  quotation INTEGER NOT NULL REFERENCES quotations (id),
  letter TEXT NOT NULL,
  line INTEGER NOT NULL CHECK (line > 0),
  rule TEXT NOT NULL,
  fingerprint TEXT NOT NULL,
  structure TEXT NOT NULL CHECK (json_valid(structure)),
  book INTEGER NOT NULL REFERENCES books (number),
  asked_at TEXT NOT NULL,
  asked_by TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX approvals_of_quotation ON approvals (quotation, id);

CREATE TABLE approval_acts (
  id INTEGER PRIMARY KEY,
  approval INTEGER NOT NULL REFERENCES approvals (id),
  act TEXT NOT NULL CHECK (act IN ('granted', 'refused', 'withdrawn')),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  day TEXT NOT NULL,
  reason TEXT NOT NULL
) STRICT;
CREATE INDEX acts_of_approval ON approval_acts (approval, id);

CREATE TABLE sendings (
  id INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revisions (id),
  kind TEXT NOT NULL CHECK (kind IN ('offer', 'reminder', 'lapse-notice', 'part-request')),
  way TEXT NOT NULL CHECK (way IN ('e-mail', 'post', 'telephone', 'by-hand')),
  addressee TEXT NOT NULL,
  sent_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  text TEXT NOT NULL
) STRICT;
CREATE INDEX sendings_of_revision ON sendings (revision, id);

CREATE TABLE drafts_seen (
  id INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revisions (id),
  book INTEGER NOT NULL REFERENCES books (number),
  tool_state INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX seen_of_revision ON drafts_seen (revision, id);
"""

ONLY_GROWING = ("approvals", "approval_acts", "sendings", "drafts_seen")


def up(db: Database) -> None:
    """None of these rows is ever changed or taken out: what is said later stands beside what was said before."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )
    db.execute(
        "CREATE TRIGGER sendings_not_of_a_draft BEFORE INSERT ON sendings "
        "WHEN NEW.revision NOT IN (SELECT id FROM revisions WHERE issued_at IS NOT NULL) "
        "BEGIN SELECT RAISE(ABORT, 'a draft is sent to nobody'); END"
    )
