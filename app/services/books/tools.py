"""The live state of the tools: read at any number, changed one switch at a time. Changing it publishes nothing."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolState, ToolStates
from app.domain.errors import BadInput, ChangedByAnother, Fault, NotFound
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.store import history, tools
from app.store.db import Store
from rules.model import ToolCondition

__all__ = ["LONGEST_NOTE", "ToolState", "ToolStates", "set_tool", "tool_states"]

LONGEST_NOTE = 2_000


def tool_states(store: Store, number: int | None = None) -> ToolStates:
    """As they stood when the log had `number` entries; None: now. Raises NotFound for a number never reached."""
    with store.reading() as db:
        last = tools.last_number(db)
        if number is not None and not 0 <= number <= last:
            raise NotFound(what="tool-state", name=str(number))
        return tools.at(db, last if number is None else number)


def set_tool(
    store: Store,
    actor: Actor,
    tool: str,
    state: ToolCondition,
    now: datetime,
    *,
    until: date | None = None,
    note: str = "",
    expected: int,
) -> ToolStates:
    """All states after the change; what stands already is not said again.

    Down and lost need a `note`: the reason. Raises NotFound, BadInput, and ChangedByAnother where `expected` is not the
    last number.
    """
    book = current_book(store, now)
    if all(known.id != tool for known in book.tools):
        raise NotFound(what="tool", name=tool)
    faults = tuple(_faults(state, until, note, day_of(book, now)))
    if faults:
        raise BadInput(faults)
    with store.writing() as db:
        last = tools.last_number(db)
        if last != expected:
            raise ChangedByAnother(what="tool-state", name=tool, expected=expected, actual=last)
        if _stands(tools.at(db, last).states.get(tool), state, until, note):
            return tools.at(db, last)
        number = tools.add(db, tool, state, until, note, actor.name, now)
        history.add(db, "tool", tool, f"tool-{state.value}", actor.name, now, number=str(number))
        return tools.at(db, number)


def _stands(said: ToolState | None, state: ToolCondition, until: date | None, note: str) -> bool:
    """Whether that is what was last said of it; a tool that nothing was ever said of is in order."""
    was = (ToolCondition.OK, None, "") if said is None else (said.state, said.until, said.note)
    return was == (state, until, note)


def _faults(state: ToolCondition, until: date | None, note: str, today: date) -> Iterator[Fault]:
    if until is not None and state is not ToolCondition.DOWN:
        yield Fault("until", "only-when-down")
    elif until is not None and until < today:
        yield Fault("until", "in-the-past")
    if state is not ToolCondition.OK and not note.strip():
        yield Fault("note", "reason-for-tool")
    if len(note) > LONGEST_NOTE:
        yield Fault("note", "too-long", {"most": LONGEST_NOTE})
