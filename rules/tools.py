"""What the state of the tools does to a book: lost ones forbid, those that are down are gates. No date is read here."""

from __future__ import annotations

from collections.abc import Mapping

from rules.model import Book, Tool, ToolCondition


def banning_tools(book: Book, states: Mapping[str, ToolCondition]) -> tuple[Tool, ...]:
    """The lost tools that forbid what depends on them under their own id: no rule speaks or stands in for them."""
    return tuple(tool for tool in _in(book, states, ToolCondition.LOST) if not (tool.speaks_as or tool.stands_in))


def gating_tools(book: Book, states: Mapping[str, ToolCondition]) -> tuple[Tool, ...]:
    """The tools that are down: what depends on them can be built once they are back."""
    return _in(book, states, ToolCondition.DOWN)


def _in(book: Book, states: Mapping[str, ToolCondition], condition: ToolCondition) -> tuple[Tool, ...]:
    """Tools without a state are in order."""
    return tuple(tool for tool in book.tools if states.get(tool.id) is condition)
