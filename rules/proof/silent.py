"""Conditions that never hold for anything that can be built, and what price lists leave out."""

from __future__ import annotations

from collections.abc import Iterator

from rules.condition import All, Condition, Is
from rules.engine.forest import FALSE
from rules.model import Book, Kind, Line, Tool, ToolCondition
from rules.proof.finding import Silent, Toolless, Unpriced, Witness
from rules.proof.ground import Ground
from rules.specification import Donor

#: Kind, id, line, condition.
_Thing = tuple[str, str, str | None, Condition]

_SPEAKING = (Kind.PART, Kind.APPROVAL, Kind.CAUTION, Kind.HOLD)


def silent_things(ground: Ground) -> tuple[Silent, ...]:
    """All conditions of the book that hold for nothing that can be built, whatever the donor car."""
    return tuple(
        Silent(kind, id_, line, _anywhere(ground, when))
        for kind, id_, line, when in _things(ground)
        if _shown(ground, when) is None
    )


def _shown(ground: Ground, when: Condition) -> Witness | None:
    """A shell that can be built and for which the condition holds, for the first car of all that allows one."""
    shells = (ground.buildable(node, car) for node, car in _by_car(ground, when))
    return next((shell for shell in shells if shell is not None), None)


def unpriced_lines(ground: Ground) -> tuple[Unpriced, ...]:
    """Lines that can be charged and that a list has no amount for; a choice at no charge has no line."""
    lists = [price_list.id for price_list in ground.book.lists]
    return tuple(_unpriced(ground, line, lists) for line in ground.book.lines if any(_lacks(line, lists)))


def idle_tools(ground: Ground) -> tuple[str, ...]:
    """Tools on which nothing depends: what they are needed for names no combination of choices."""
    return tuple(tool.id for tool in ground.book.tools if set(ground.nodes(tool.needed_for)) == {FALSE})


def toolless_choices(ground: Ground) -> tuple[Toolless, ...]:
    """Structural choices that no tool names, but for an option of one choice."""
    named = {pair for tool in ground.book.tools for pair in _named(ground, tool)}
    structural = [option for option in ground.book.options if option.structural]
    pairs = [(option.id, choice.id) for option in structural for choice in option.choices]
    return tuple(Toolless(*pair, _with(ground, *pair)) for pair in pairs if pair not in named)


def _with(ground: Ground, option: str, choice: str) -> Witness | None:
    """A shell with this choice, whatever the donor car."""
    return _shown(ground, Is(option, frozenset((choice,))))


def _things(ground: Ground) -> Iterator[_Thing]:
    """Lost tools, and those that speak through a rule, are silent by right; choices that are dead are found apart."""
    book = ground.book
    for rule in book.rules:
        yield from ((kind.value, rule.id, None, rule.when) for kind in _SPEAKING if kind in rule.kinds)
    for tool in book.tools:
        if tool.speaks_as is None and ground.states.get(tool.id) is not ToolCondition.LOST:
            yield "tool", tool.id, None, tool.needed_for
    yield from (("line", line.id, None, line.when) for line in book.lines if line.choice is None)
    yield from _terms(book)
    yield from (("addition", addition.id, None, addition.when) for addition in book.additions)
    yield from (("standing-caution", caution.id, None, caution.when) for caution in book.cautions)


def _terms(book: Book) -> Iterator[_Thing]:
    lines = {line.id: line for line in book.lines}
    for adjustment in book.adjustments:
        for line in adjustment.lines:
            yield "adjustment", adjustment.id, line, All((adjustment.when, lines[line].when))


def _by_car(ground: Ground, when: Condition) -> Iterator[tuple[int, Donor]]:
    seen = set()
    for car in ground.cars:
        key = (ground.node(when, car), *ground.forbidden(car).values())
        if key not in seen:
            seen.add(key)
            yield key[0], car


def _anywhere(ground: Ground, when: Condition) -> Witness | None:
    shells = (ground.any(node) for node in ground.nodes(when))
    return next((shell for shell in shells if shell is not None), None)


def _lacks(line: Line, lists: list[str]) -> list[bool]:
    return [list_ not in line.amounts for list_ in lists]


def _unpriced(ground: Ground, line: Line, lists: list[str]) -> Unpriced:
    missing = tuple(list_ for list_ in lists if list_ not in line.amounts)
    witness = _shown(ground, line.when)
    return Unpriced(line.id, line.option, line.choice, missing, len(missing) == len(lists), witness)


def _named(ground: Ground, tool: Tool) -> Iterator[tuple[str, str]]:
    """The choices without which, or with others of their option, the tool would be needed otherwise."""
    for node in ground.nodes(tool.needed_for):
        for option in sorted(ground.forest.options_of(node)):
            yield from ((option, c) for c in ground.domains[option] if ground.needs(node, option, c))
