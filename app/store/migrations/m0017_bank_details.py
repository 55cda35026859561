"""Bank details that two people have agreed to; order-acceptance forms as they went out, byte for byte.

A change of bank details is proposed by one and agreed to by another: the guard holds that, whatever the service does.
A customer's go where his personal data are erased, and an erased customer's forms go as his other papers do.
"""

from __future__ import annotations

from sqlite_utils import Database

from app.store.migrations.m0010_customers import OF_ERASED

TABLES = (
    """CREATE TABLE bank_proposals (
      id INTEGER PRIMARY KEY,
      customer INTEGER REFERENCES customers (id),
      holder TEXT NOT NULL,
      bank TEXT NOT NULL,
      account TEXT NOT NULL,
      routing TEXT NOT NULL,
      how TEXT NOT NULL CHECK (how IN ('telephone', 'in-person')),
      spoken_to TEXT NOT NULL,
      known_number TEXT NOT NULL,
      confirmed_on TEXT NOT NULL,
      at TEXT NOT NULL,
      by TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX bank_proposals_by_customer ON bank_proposals (customer)",
    """CREATE TABLE bank_answers (
      proposal INTEGER PRIMARY KEY REFERENCES bank_proposals (id),
      agreed INTEGER NOT NULL CHECK (agreed IN (0, 1)),
      why TEXT NOT NULL,
      at TEXT NOT NULL,
      by TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE acceptance_forms (
      id INTEGER PRIMARY KEY,
      revision INTEGER NOT NULL REFERENCES revisions (id),
      language TEXT NOT NULL,
      size TEXT NOT NULL,
      sha256 TEXT NOT NULL,
      pdf BLOB NOT NULL,
      UNIQUE (revision, language, size)
    ) STRICT""",
)

_ERASED = "SELECT customer FROM erasures"
_ERASED_PEOPLE = f"(SELECT id FROM customers WHERE id IN ({_ERASED}) OR merged_into IN ({_ERASED}))"  # noqa: S608

_OF_ERASED_PEOPLE = f"(SELECT id FROM bank_proposals WHERE customer IN {_ERASED_PEOPLE})"  # noqa: S608

#: Trigger, when it speaks, and what it says.
GUARDS = (
    ("bank_proposals_no_update", "BEFORE UPDATE ON bank_proposals", "bank_proposals only grow: nothing is changed"),
    (
        "bank_proposals_no_delete",
        f"BEFORE DELETE ON bank_proposals WHEN OLD.customer IS NULL OR OLD.customer NOT IN {_ERASED_PEOPLE}",
        "bank_proposals only grow: nothing is taken out",
    ),
    ("bank_answers_no_update", "BEFORE UPDATE ON bank_answers", "bank_answers only grow: nothing is changed"),
    (
        "bank_answers_no_delete",
        f"BEFORE DELETE ON bank_answers WHEN OLD.proposal NOT IN {_OF_ERASED_PEOPLE}",
        "bank_answers only grow: nothing is taken out",
    ),
    (
        "bank_answers_of_a_second_person",
        "BEFORE INSERT ON bank_answers WHEN NEW.agreed = 1 "
        "AND NEW.by = (SELECT by FROM bank_proposals WHERE id = NEW.proposal)",
        "bank details take a second person",
    ),
    (
        "bank_proposals_one_at_a_time",
        "BEFORE INSERT ON bank_proposals WHEN EXISTS (SELECT 1 FROM bank_proposals WHERE customer IS NEW.customer "
        "AND id NOT IN (SELECT proposal FROM bank_answers))",
        "a change of these bank details waits already",
    ),
    (
        "acceptance_forms_no_update",
        "BEFORE UPDATE ON acceptance_forms",
        "acceptance_forms only grow: nothing is changed",
    ),
    (
        "acceptance_forms_no_delete",
        f"BEFORE DELETE ON acceptance_forms WHEN NOT ({OF_ERASED})",
        "acceptance_forms only grow: nothing is taken out",
    ),
)


def up(db: Database) -> None:
    """Nobody's bank details are known before somebody has confirmed them: none are taken over."""
    for statement in TABLES:
        db.execute(statement)
    for name, when, says in GUARDS:
        db.execute(f"CREATE TRIGGER {name} {when} BEGIN SELECT RAISE(ABORT, '{says}'); END")
