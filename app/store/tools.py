"""The log of tool states. An entry's number is its place in the log, and names the state of all tools at that point."""

from __future__ import annotations

from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.books.tool_state import ToolState, ToolStates
from app.store import safety
from app.store.texts import maybe_day, moment, moment_text
from rules.model import ToolCondition

_LAST_OF_EACH = """
SELECT number, tool, state, until, at, by, note FROM tool_states
WHERE number IN (SELECT max(number) FROM tool_states WHERE number <= ? GROUP BY tool) ORDER BY number
"""


def last_number(db: Database) -> int:
    """0 while nothing was ever said of any tool."""
    (number,) = db.execute("SELECT coalesce(max(number), 0) FROM tool_states").fetchone()
    return int(number)


def at(db: Database, number: int) -> ToolStates:
    """The last said of each tool when the log had `number` entries, with the safety faults that stand."""
    states = (_state(row) for row in db.execute(_LAST_OF_EACH, [number]))
    return ToolStates(number, {state.tool: state for state in states}, safety.standing(db))


def add(db: Database, tool: str, state: ToolCondition, until: date | None, note: str, by: str, now: datetime) -> int:
    """The number of the new entry."""
    row = [last_number(db) + 1, tool, state.value, until and until.isoformat(), moment_text(now), by, note]
    db.execute("INSERT INTO tool_states (number, tool, state, until, at, by, note) VALUES (?, ?, ?, ?, ?, ?, ?)", row)
    return last_number(db)


def _state(row: Row) -> ToolState:
    return ToolState(
        tool=row["tool"],
        state=ToolCondition(row["state"]),
        until=maybe_day(row["until"]),
        since=moment(row["at"]),
        by=row["by"],
        note=row["note"],
        number=row["number"],
    )
