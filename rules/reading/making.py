"""How a shell is made: welding processes, operations stage by stage, weld zones, holes and brackets."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from itertools import islice, product

from rules.condition import Condition, holds, options_of
from rules.donor.resolve import domains_of, resolve
from rules.making import Fixture, Hole, KitLine, Operation, Process, Sort, Supply, Zone
from rules.model import Book
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import nameless
from rules.reading.mistakes import sentence, shown
from rules.reading.rows import Told, check_once, told_rows, words_of
from rules.reading.values import decimal, one_of, whole, yes_or_no
from rules.specification import Donor

_NUMBER = re.compile(r"[1-9]\d{0,3}", re.ASCII)
_PLACE = re.compile(r"[-−]?\d{1,5}", re.ASCII)

#: So many combinations are tried to find one on which a hole is both drilled and blanked.
_TRIED = 20_000


def read_processes(block: Block, desk: Desk) -> tuple[Process, ...]:
    """The welding processes, by their numbers."""
    desk.only_table(block)
    rows = told_rows(block, desk)
    for line, row in rows:
        if not _NUMBER.fullmatch(row["process"]):
            what = sentence("“{process}” is no number of a welding process", process=shown(row["process"]))
            desk.ledger.add(line, what, sentence("write its number by ISO 4063, like 135 or 21"))
    return tuple(Process(row["process"], words_of(row, desk)) for _, row in rows)


def read_operations(blocks: Iterable[Block], desk: Desk) -> tuple[Operation, ...]:
    """The operations of all stages: by stage in the order of these, within a stage in written order."""
    first: dict[str, int] = {}
    found: list[Operation | None] = []
    for block in blocks:
        stage = "-".join(block.words)
        check_once(stage, block, first, desk)
        desk.fields(block, ())
        rows = told_rows(block, desk)
        if desk.names.check("stage", stage, block.line, desk.ledger):
            found += [_operation(stage, row, desk) for row in rows]
    order = {stage: place for place, stage in enumerate(desk.names.known("stage"))}
    return tuple(sorted((one for one in found if one is not None), key=lambda one: order[one.stage]))


def _operation(stage: str, row: Told, desk: Desk) -> Operation | None:
    line, cells = row
    sort = _sort(cells["sort"], line, desk)
    process = cells["process"] or None
    if process is not None:
        desk.names.check("process", process, line, desk.ledger, "welding process")
    when = desk.condition_in(cells["when"], line)
    if when is None or sort is None:
        return None
    return Operation(cells["operation"], stage, when, words_of(cells, desk), process, sort)


def _sort(word: str, line: int, desk: Desk) -> Sort | None:
    return one_of(Sort, word, line, desk.ledger, "there is no sort of operation") if word else Sort.WORK


def read_zones(block: Block, desk: Desk) -> tuple[Zone, ...]:
    """The weld zones."""
    desk.only_table(block)
    zones = (_zone(row, desk) for row in told_rows(block, desk))
    return tuple(zone for zone in zones if zone is not None)


def _zone(row: Told, desk: Desk) -> Zone | None:
    line, cells = row
    desk.names.check("operation", cells["operation"], line, desk.ledger)
    welds = whole(cells["welds"], line, desk.ledger, "a number of welds", 1_000)
    if welds == 0:
        desk.ledger.add(
            line, sentence("a zone without a weld is none"), sentence("write how many there are, or take the row out")
        )
    sheets = _sheets(cells["sheets"], line, desk)
    when = desk.condition_in(cells["when"], line)
    if welds is None or when is None:
        return None
    return Zone(cells["zone"], cells["operation"], welds, sheets, when, words_of(cells, desk), line)


def _sheets(text: str, line: int, desk: Desk) -> tuple[Decimal, ...]:
    parts = [part.strip() for part in text.split("/")]
    if len(parts) not in (2, 3):
        desk.ledger.add(
            line,
            sentence("“{text}” is no joint of sheets", text=shown(text)),
            sentence("write two or three thicknesses like 0.9 / 1.2"),
        )
        return ()
    found = [decimal(part, line, desk.ledger, 10) for part in parts]
    if Decimal(0) in found:
        desk.ledger.add(line, sentence("a sheet has a thickness"), sentence("write millimetres like 0.9"))
    return tuple(one for one in found if one is not None)


def read_holes(block: Block, desk: Desk) -> tuple[tuple[Hole, ...], Condition | None]:
    """The holes and brackets of the map, and on which shells the handed ones lie on the other side."""
    nameless(block, desk.ledger)
    fields = desk.fields(block, ("mirrored",))
    rows = told_rows(block, desk)
    mirrored = desk.condition_if_said(fields, "mirrored")
    for line, row in rows:
        if row["handed"] == "yes" and not fields.has("mirrored"):
            what = sentence("“{hole}” is handed, but nothing says which shells are mirrored", hole=shown(row["hole"]))
            desk.ledger.add(line, what, sentence("add a line like “mirrored: steering is right” above the table"))
    return tuple(hole for hole in (_hole(row, desk) for row in rows) if hole is not None), mirrored


def _hole(row: Told, desk: Desk) -> Hole | None:
    line, cells = row
    fixture = one_of(Fixture, cells["sort"], line, desk.ledger, "there is no sort of fixture")
    desk.names.check("stage", cells["stage"], line, desk.ledger)
    x, y = place(cells, line, desk)
    doing = {name: _when(cells[name], line, desk) for name in ("drill", "blank", "leave")}
    if not any(cells[name] for name in doing):
        what = sentence("“{hole}” is never drilled, blanked or left", hole=shown(cells["hole"]))
        desk.ledger.add(line, what, sentence("write “always” or a condition under one of them"))
    size = _size(cells["size"], fixture, line, desk)
    handed = yes_or_no(cells["handed"], line, desk.ledger) if cells["handed"] else False
    if fixture is None:
        return None
    return Hole(cells["hole"], fixture, cells["stage"], size, x, y, handed, **doing,
                label=words_of(cells, desk), line=line)  # fmt: skip


def _when(text: str, line: int, desk: Desk) -> Condition | None:
    return desk.condition_in(text, line) if text else None


def _size(text: str, fixture: Fixture | None, line: int, desk: Desk) -> Decimal | None:
    if text:
        return decimal(text, line, desk.ledger)
    if fixture is Fixture.HOLE:
        desk.ledger.add(
            line, sentence("a hole has a size"), sentence("write how many millimetres it is across, like 6.5")
        )
    return None


def read_kit(block: Block, desk: Desk) -> tuple[KitLine, ...]:
    """What lies ready before a shell is released."""
    desk.only_table(block)
    found = []
    for line, row in told_rows(block, desk):
        supply = one_of(Supply, row["sort"], line, desk.ledger, "there is no sort of kit line")
        when = desk.condition_in(row["when"], line)
        if supply is not None and when is not None:
            found.append(KitLine(row["line"], supply, when, words_of(row, desk)))
    return tuple(found)


def place(row: dict[str, str], line: int, desk: Desk) -> tuple[int, int]:
    """Where a row's thing is on the shell."""
    return _along("x", row, line, desk), _along("y", row, line, desk)


def _along(axis: str, row: dict[str, str], line: int, desk: Desk) -> int:
    if _PLACE.fullmatch(row[axis]):
        return int(row[axis].replace("−", "-"))
    what = sentence("“{row}” is no place along {axis}", row=shown(row[axis]), axis=axis)
    desk.ledger.add(line, what, sentence("write whole millimetres, like 1480 or -620"))
    return 0


def check_making(book: Book, desk: Desk) -> None:
    """What only the whole book shows: a weld zone without a weld's process, a hole both drilled and blanked.

    Nothing is said of a book with other mistakes: a condition may then name what could not be read.
    """
    if desk.ledger.found:
        return
    processes = {operation.id: operation.process for operation in book.making.operations}
    for zone in book.making.zones:
        if zone.operation in processes and processes[zone.operation] is None:
            what = sentence(
                "operation {operation} welds nothing, so zone {id} can't be of it", operation=zone.operation, id=zone.id
            )
            desk.ledger.add(zone.line, what, sentence("name a process for the operation, or another operation"))
    for hole in book.making.holes:
        _check_one_way(hole, book, desk)


def _check_one_way(hole: Hole, book: Book, desk: Desk) -> None:
    """No shell may have it two ways: a combination is a mistake even where a rule forbids it, for rules change."""
    ways = {"drilled": hole.drill, "blanked": hole.blank, "left": hole.leave}
    told = {way: resolve(when, book, Donor()) for way, when in ways.items() if when is not None}
    for one, other in (("drilled", "blanked"), ("drilled", "left"), ("blanked", "left")):
        if one in told and other in told and (made := _both(told[one], told[other], book)) is not None:
            said = ", ".join(f"{option} {choice}" for option, choice in made.items()) or "every choice"
            what = sentence(
                "“{id}” would be both {one} and {other} with {said}", id=hole.id, one=one, other=other, said=said
            )
            desk.ledger.add(hole.line, what, sentence("let the two conditions exclude each other"))


def _both(one: Condition, other: Condition, book: Book) -> dict[str, str] | None:
    domains = domains_of(book)
    options = sorted(options_of(one) | options_of(other))
    for row in islice(product(*(domains[option] for option in options)), _TRIED):
        made = dict(zip(options, row, strict=True))
        if holds(one, made, domains) and holds(other, made, domains):
            return made
    return None
