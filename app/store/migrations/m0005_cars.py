"""The donor car's number as it reads, so that a car is known again however it was typed, and by what went out."""

from __future__ import annotations

from sqlite_utils import Database

STEPS = (
    "ALTER TABLE enquiries ADD COLUMN car TEXT NOT NULL DEFAULT ''",
    "CREATE INDEX enquiries_by_car ON enquiries (car) WHERE car <> ''",
    "CREATE INDEX revisions_by_car ON revisions "
    "(json_extract(frozen, '$.donor.series'), json_extract(frozen, '$.donor.number')) WHERE frozen IS NOT NULL",
)


def up(db: Database) -> None:
    """`car` is empty where the number can't be read, and on what was taken down before: series and number tell."""
    for step in STEPS:
        db.execute(step)
