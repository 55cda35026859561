"""Which shells still have something done to them: so that nobody reads twenty years of what was built and has left.

It follows from what is done to shells and is kept by triggers alone, as the turns of m0013: no code writes it. And the
guards of what went out look at the one revision that is written to; they used to gather all that ever went out first.
"""

# ruff: noqa: S608 - what is put together here are texts of this file alone

from __future__ import annotations

import re
from sqlite3 import Connection

from sqlite_utils import Database

#: `built`: no stage of its route is left, and it waits to be despatched.
TABLES = """
CREATE TABLE shells_under_way (
  shell INTEGER PRIMARY KEY REFERENCES shells (id),
  built INTEGER NOT NULL DEFAULT 0 CHECK (built IN (0, 1))
) STRICT;
CREATE INDEX shells_to_build ON shells_under_way (shell) WHERE built = 0;
CREATE INDEX declined_by_moment ON revision_acts (at) WHERE act = 'declined';
"""

#: Of `{of}`: whether it will never come back to the floor, and whether no stage at which anything is done is left.
_GONE = "EXISTS (SELECT 1 FROM shell_deeds WHERE shell = {of} AND deed IN ('despatched', 'cancelled'))"
_BUILT = """
EXISTS (SELECT 1 FROM shell_deeds WHERE shell = {of} AND deed = 'released')
AND NOT EXISTS (SELECT 1 FROM shell_deeds AS released, json_each(released.route) AS stop
  WHERE released.shell = {of} AND released.deed = 'released' AND stop.value ->> 'work' <> 'none'
  AND stop.value ->> 'stage' NOT IN
    (SELECT stage FROM shell_deeds WHERE shell = {of} AND deed = 'done' AND stage IS NOT NULL))
"""

#: A shell that another took the place of, and those of what the order followed before, are nobody's to build.
_STAND = f"""
INSERT INTO shells_under_way (shell, built)
SELECT shells.id, {_BUILT.format(of="shells.id")} FROM shells
JOIN order_lines ON order_lines.id = shells.order_line JOIN order_bases ON order_bases.id = order_lines.basis
WHERE order_bases.id = (SELECT max(id) FROM order_bases AS last WHERE last.order_id = order_bases.order_id)
  AND shells.turn = (SELECT max(turn) FROM shells AS own
    WHERE own.order_line = shells.order_line AND own.place = shells.place)
  AND NOT {_GONE.format(of="shells.id")}
"""

TRIGGERS = (
    (
        "shells_under_way_come",
        "AFTER INSERT ON shells",
        "DELETE FROM shells_under_way WHERE shell IN (SELECT id FROM shells WHERE order_line = NEW.order_line "
        "AND place = NEW.place AND turn < NEW.turn); INSERT INTO shells_under_way (shell) VALUES (NEW.id);",
    ),
    (
        "shells_under_way_of_before",
        "AFTER INSERT ON order_bases",
        "DELETE FROM shells_under_way WHERE shell IN (SELECT shells.id FROM order_bases "
        "JOIN order_lines ON order_lines.basis = order_bases.id JOIN shells ON shells.order_line = order_lines.id "
        "WHERE order_bases.order_id = NEW.order_id AND order_bases.id < NEW.id);",
    ),
    (
        "shells_under_way_go",
        "AFTER INSERT ON shell_deeds WHEN NEW.deed IN ('despatched', 'cancelled')",
        "DELETE FROM shells_under_way WHERE shell = NEW.shell;",
    ),
    (
        "shells_under_way_built",
        "AFTER INSERT ON shell_deeds WHEN NEW.deed = 'done'",
        f"UPDATE shells_under_way SET built = {_BUILT.format(of='NEW.shell')} WHERE shell = NEW.shell;",
    ),
)


#: What the guards asked, and what they ask now.
_GATHERED = re.compile(r"(NEW|OLD)\.revision (NOT )?IN \(SELECT id FROM revisions WHERE issued_at IS NOT NULL\)")
_LOOKED_AT = r"\2EXISTS (SELECT 1 FROM revisions WHERE id = \1.revision AND issued_at IS NOT NULL)"


def up(db: Database) -> None:
    for name, guard in db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall():
        if _GATHERED.search(guard):
            db.execute(f"DROP TRIGGER {name}")
            db.execute(_GATHERED.sub(_LOOKED_AT, guard))
    for statement in filter(str.strip, TABLES.split(";\n")):
        db.execute(statement)
    keep(db)


def keep(db: Database | Connection) -> None:
    """From what was done so far, once; then by triggers."""
    db.execute(_STAND)
    for name, when, does in TRIGGERS:
        db.execute(f"CREATE TRIGGER {name} {when} BEGIN {does} END")


def let_go(db: Database | Connection) -> None:
    """For filling in bulk: no trigger keeps anything until `keep`, and nothing may stand in it yet."""
    for name, _, _ in TRIGGERS:
        db.execute(f"DROP TRIGGER {name}")
