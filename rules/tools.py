"""What the state of the tools does to a book: lost ones forbid, those that are down are gates. No date is read here."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from rules.model import Book, Tool, ToolCondition


class Effect(Enum):
    """What the state of a tool does to the shells that are made with it.

    FREE: they can be built. WAITS: once it is back. PART: a part that the customer sends stands in for it. RULE: a rule
    of the book speaks in any case, whatever the tool's state. NEVER: they can't be built again.
    """

    FREE = "free"
    WAITS = "waits"
    PART = "part"
    RULE = "rule"
    NEVER = "never"


def effect(tool: Tool, condition: ToolCondition) -> Effect:
    """What follows for the shells that are made with the tool."""
    match condition:
        case ToolCondition.OK:
            return Effect.RULE if tool.speaks_as else Effect.FREE
        case ToolCondition.DOWN:
            return Effect.RULE if tool.speaks_as else Effect.WAITS
        case ToolCondition.LOST:
            return Effect.PART if tool.stands_in else Effect.RULE if tool.speaks_as else Effect.NEVER


def banning_tools(book: Book, states: Mapping[str, ToolCondition]) -> tuple[Tool, ...]:
    """The lost tools that forbid what depends on them under their own id: no rule speaks or stands in for them."""
    return tuple(tool for tool in _in(book, states, ToolCondition.LOST) if not (tool.speaks_as or tool.stands_in))


def gating_tools(book: Book, states: Mapping[str, ToolCondition]) -> tuple[Tool, ...]:
    """The tools that are down: what depends on them can be built once they are back."""
    return _in(book, states, ToolCondition.DOWN)


def _in(book: Book, states: Mapping[str, ToolCondition], condition: ToolCondition) -> tuple[Tool, ...]:
    """Tools without a state are in order."""
    return tuple(tool for tool in book.tools if states.get(tool.id) is condition)
