"""What follows from a tool's state before it is said: what the book loses, and whom it touches. Changes nothing.

The same for whoever may switch a tool, at the office or in the workshop; whether he sees the money is not decided here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from app.domain.errors import BookTooBranched, NotFound
from app.domain.quotations.quotation import Standing
from app.services.books import compiling, proving, publishing
from app.services.books.tools import tool_states
from app.services.floor import overseeing
from app.services.floor.overseeing import OnFloor
from app.store import promises
from app.store.db import Store
from app.store.promises import Promise, PromisedLine
from rules.condition import holds
from rules.donor.resolve import domains_of
from rules.model import Book, Tool, ToolCondition
from rules.proof.reliance import Reliance, uses
from rules.tools import Effect, effect

#: A draft that nobody has changed for so long is not looked through: whoever takes it up again is told then.
FRESH = timedelta(days=90)

#: Whether a line of a promise is made with the tool.
Uses = Callable[[Promise, PromisedLine], bool]


@dataclass(frozen=True, slots=True)
class Touched:
    """A revision with the lines (counted from 1) that use the tool, and how many `shells` those are."""

    promise: Promise
    lines: tuple[int, ...]
    shells: int


@dataclass(frozen=True, slots=True)
class Consequences:
    """`was`: how the tool stands by entry `number` of the log; `reliance` None: the book is too large to say.

    `stopped`: released shells that use it and are not past the stage where it is used; `past`: those that are.
    `accepted` (and not all built), `issued` (and in date) and `drafts` are in the order in which they have to be dealt
    with. `stale`: drafts that nobody has changed for `FRESH`, whatever they use.
    """

    book: Book
    number: int
    tool: Tool
    was: ToolCondition
    becomes: ToolCondition
    effect: Effect
    reliance: Reliance | None
    accepted: tuple[Touched, ...]
    issued: tuple[Touched, ...]
    drafts: tuple[Touched, ...]
    stopped: tuple[OnFloor, ...] = ()
    past: tuple[OnFloor, ...] = ()
    stale: int = 0


def consequences(store: Store, tool_id: str, becomes: ToolCondition, now: datetime) -> Consequences:
    """Were the tool said to stand so at `now`. Raises NotFound for an unknown tool, NoBook, BeingWorkedOut."""
    book, states = publishing.current_book(store, now), tool_states(store)
    tool, conditions = _tool(book, tool_id), states.conditions()
    relied = _relied(store, book, tool_id)
    with store.reading() as db:
        out, drafts = promises.out(db, now), promises.drafts(db, now - FRESH)
        stale = promises.count_drafts(db) - len(drafts)
    stopped, past = overseeing.made_with(store, tool_id, now)
    out_touched = tuple(touched(out, _made_with(store, tool_id)))
    return Consequences(
        book=book,
        number=states.number,
        tool=tool,
        was=conditions.get(tool_id, ToolCondition.OK),
        becomes=becomes,
        effect=effect(tool, becomes),
        reliance=relied,
        accepted=tuple(one for one in out_touched if one.promise.standing is Standing.ACCEPTED),
        issued=tuple(one for one in out_touched if one.promise.standing is Standing.ISSUED),
        drafts=tuple(touched(drafts, _asks_for(store, book, conditions, tool_id))),
        stopped=stopped,
        past=past,
        stale=stale,
    )


def _tool(book: Book, tool_id: str) -> Tool:
    found = next((tool for tool in book.tools if tool.id == tool_id), None)
    if found is None:
        raise NotFound(what="tool", name=tool_id)
    return found


def _relied(store: Store, book: Book, tool_id: str) -> Reliance | None:
    try:
        return proving.relied(store, book.number, tool_id)
    except BookTooBranched:
        return None


def touched(these: Iterable[Promise], made_with: Uses) -> Iterator[Touched]:
    """Those of these of which a line is so, in their order."""
    for promise in these:
        lines = [at for at, line in enumerate(promise.lines, 1) if made_with(promise, line)]
        if lines:
            yield Touched(promise, tuple(lines), sum(promise.lines[at - 1].quantity for at in lines))


def _made_with(store: Store, tool_id: str) -> Uses:
    """Of what is out, by its own book: every option is settled there. A book without the tool needs none."""

    def made_with(promise: Promise, line: PromisedLine) -> bool:
        book = publishing.book(store, promise.book or 0)
        if all(tool.id != tool_id for tool in book.tools):
            return False
        return holds(uses(book, tool_id, promise.donor), line.made, domains_of(book))

    return made_with


def _asks_for(store: Store, book: Book, conditions: Mapping[str, ToolCondition], tool_id: str) -> Uses:
    """Of a draft, by what its answers settle: as the engine would say it if the tool were down."""
    down, domains = {**conditions, tool_id: ToolCondition.DOWN}, domains_of(book)

    def asks_for(promise: Promise, line: PromisedLine) -> bool:
        prepared = compiling.ready(store, book, down, promise.donor)
        made = {option: choice for option, choice in line.made.items() if choice in domains.get(option, ())}
        alone = prepared.alone(made) or prepared.layout.mask(made)
        return tool_id in prepared.voices.depends(alone).tools

    return asks_for
