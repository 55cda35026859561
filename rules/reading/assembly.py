"""Blocks → book: which reader reads which kind of block, and in what order. Reads nothing itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TypeVar

from rules.condition import Condition
from rules.making import Hole, Making
from rules.model import Book, Calendar, Line, Option, Tax, Terms
from rules.reading import (
    crosschecks,
    days,
    drawing,
    head,
    inspecting,
    keeping,
    known,
    late,
    making,
    measures,
    options,
    original,
    phrases,
    prices,
    ruling,
    targets,
    tooling,
    trade,
    wordings,
)
from rules.reading.blocks import Block, blocks_of
from rules.reading.desk import Desk
from rules.reading.mistakes import Enough, Ledger, offer, sentence
from rules.reading.names import DECLARED, names_of

T = TypeVar("T")

#: Kinds of block that a book has once; `phrases`, `usual`, `closed`, `drawing`, `operations` may come again and again.
ONCE = (
    *("book", "lists", "categories", "groups", "roles", "calendar", "tax", "delivery", "terms"),
    *("processes", "zones", "holes", "datums", "inspection", "coats", "threads", "panels", "kit"),
)
KINDS = (*ONCE, *DECLARED, "phrases", "usual", "closed", "drawing", "operations")


@dataclass(slots=True)
class _Sorted:
    """The blocks by kind."""

    blocks: dict[str, list[Block]]
    desk: Desk

    def once(self, kind: str) -> Block | None:
        found = self.blocks.get(kind, [])
        return found[0] if found else None

    def each(self, kind: str, read: Callable[[Block, Desk], T | None]) -> tuple[T, ...]:
        made = (read(block, self.desk) for block in self.blocks.get(kind, []))
        return tuple(thing for thing in made if thing is not None)


def assemble(text: str, ledger: Ledger) -> Book:
    """The book that the text says; its mistakes are in the ledger, and the book is of no use where there are any."""
    blocks = _known_kinds(blocks_of(text, ledger), ledger)
    _check_head(blocks, ledger)
    desk = Desk(ledger, names_of(blocks, ledger), head.languages_of(blocks, ledger))
    _go_on_if(bool(desk.languages), ledger)
    sorted_blocks: dict[str, list[Block]] = {}
    for block in blocks:
        sorted_blocks.setdefault(block.kind, []).append(block)
    _check_once(sorted_blocks, ledger)
    book = _book(_Sorted(sorted_blocks, desk))
    crosschecks.check(book, sorted_blocks, desk)
    making.check_making(book, desk)
    return book


def _go_on_if(known: bool, ledger: Ledger) -> None:
    """Without its languages or its price lists every other table of a book would be a mistake, and none of them is."""
    if ledger.found and not known:
        raise Enough


def _known_kinds(blocks: list[Block], ledger: Ledger) -> list[Block]:
    """The blocks, a misspelt kind read as the one it is nearest to, so that what it declares is known all the same."""
    kept = []
    for block in blocks:
        if block.kind not in KINDS:
            ledger.add(
                block.line,
                sentence("there is no kind of block “{kind}”", kind=block.kind[:40]),
                offer(block.kind, KINDS),
            )
            block.kind = next(iter(get_close_matches(block.kind.rstrip(":")[:40], KINDS, n=1)), "")
        if block.kind:
            kept.append(block)
    return kept


def _check_head(blocks: list[Block], ledger: Ledger) -> None:
    if not any(block.kind == "book" for block in blocks):
        ledger.add(
            1,
            sentence("the text does not say which book it is"),
            sentence("begin it with “book some-name” and its title and languages"),
        )


def _check_once(blocks: dict[str, list[Block]], ledger: Ledger) -> None:
    for kind in ONCE:
        for second in blocks.get(kind, [])[1:]:
            first = blocks[kind][0].line
            ledger.add(
                second.line,
                sentence("“{kind}” stands here a second time, first on line {first}", kind=kind, first=first),
                sentence("put both into one block"),
            )


def _book(found: _Sorted) -> Book:
    book_id, title = _title(found)
    lists = _rows(found, "lists", head.read_lists)
    _go_on_if(bool(lists) or "lists" not in found.blocks, found.desk.ledger)
    phrases.note_phrases(found.blocks.get("phrases", []), found.desk)
    asked = found.each("option", options.read_option)
    _note_prices(asked, found.desk)
    return Book(
        id=book_id,
        title=title,
        languages=found.desk.languages,
        lists=lists,
        categories=_rows(found, "categories", head.read_categories),
        groups=_rows(found, "groups", head.read_groups),
        roles=_one(found, "roles", head.read_roles, {}),
        gearboxes=found.desk.names.gearboxes,
        options=tuple(option for option, _ in asked),
        lines=(*_flat(lines for _, lines in asked), *found.each("line", prices.read_line)),
        adjustments=found.each("adjust", prices.read_adjustment),
        rules=found.each("rule", ruling.read_rule),
        tools=found.each("tool", tooling.read_tool),
        series=found.each("series", original.read_series),
        usual=_flat(found.each("usual", original.read_usual)),
        stages=found.each("stage", days.read_stage),
        additions=found.each("addition", days.read_addition),
        calendar=_calendar(found),
        tax=_tax(found),
        terms=_one(found, "terms", trade.read_terms, Terms()),
        extras=found.each("extra", prices.read_extra),
        cautions=found.each("caution", trade.read_caution),
        wordings=found.each("wording", wordings.read_wording),
        measures=found.each("measure", measures.read_measure),
        known=found.each("known", known.read_known),
        keeps=found.each("keep", keeping.read_keep),
        cuts=found.each("cut", keeping.read_cut),
        late_changes=found.each("change", late.read_change),
        drawing=drawing.read_drawing(found.blocks.get("drawing", []), found.desk),
        making=_making(found),
    )


def _making(found: _Sorted) -> Making:
    nothing: tuple[tuple[Hole, ...], Condition | None] = ((), None)
    holes, mirrored = _one(found, "holes", making.read_holes, nothing)
    return Making(
        processes=_rows(found, "processes", making.read_processes),
        operations=making.read_operations(found.blocks.get("operations", []), found.desk),
        zones=_rows(found, "zones", making.read_zones),
        holes=holes,
        mirrored=mirrored,
        gaps=found.each("gap", targets.read_gap),
        datums=_rows(found, "datums", targets.read_datums),
        limits=_one(found, "inspection", inspecting.read_limits, None),
        coats=_rows(found, "coats", inspecting.read_coats),
        threads=_rows(found, "threads", inspecting.read_threads),
        panels=_rows(found, "panels", inspecting.read_panels),
        kit=_rows(found, "kit", making.read_kit),
    )


def _one(found: _Sorted, kind: str, read: Callable[[Block, Desk], T], without: T) -> T:
    block = found.once(kind)
    return without if block is None else read(block, found.desk)


def _title(found: _Sorted) -> tuple[str, dict[str, str]]:
    block = found.once("book")
    return ("", {}) if block is None else head.read_title(block, found.desk)


def _rows(found: _Sorted, kind: str, read: Callable[[Block, Desk], tuple[T, ...]]) -> tuple[T, ...]:
    block = found.once(kind)
    return () if block is None else read(block, found.desk)


def _flat(groups: Iterable[tuple[T, ...]]) -> tuple[T, ...]:
    return tuple(thing for group in groups for thing in group)


def _note_prices(asked: tuple[tuple[Option, tuple[Line, ...]], ...], desk: Desk) -> None:
    for option, lines in asked:
        desk.priced[option.id] = tuple(line.choice for line in lines if line.choice)


def _calendar(found: _Sorted) -> Calendar:
    closures, block = found.each("closed", days.read_closure), found.once("calendar")
    if block is None:
        return Calendar(closures=closures)
    return days.read_calendar(block, found.desk, closures)


def _tax(found: _Sorted) -> Tax:
    goes, block = _rows(found, "delivery", trade.read_delivery), found.once("tax")
    return Tax(goes=goes) if block is None else trade.read_tax(block, found.desk, goes)
