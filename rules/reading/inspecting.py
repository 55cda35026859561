"""What an inspector holds a shell against: limits with the schedule of spot welds, coats, threads, panels."""

from __future__ import annotations

import re
from decimal import Decimal

from rules.inspection.coating import WORST
from rules.making import Coat, Limits, Panel, Spot, Thread
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import nameless
from rules.reading.mistakes import Ledger, sentence, shown
from rules.reading.rows import told_rows, words_of
from rules.reading.tables import known_columns, table_of
from rules.reading.values import decimal, percent, whole

_NUMBER = r"(\d{1,4}(?:\.\d{1,3})?)"
_RANGE = re.compile(rf"{_NUMBER} to {_NUMBER}", re.ASCII)
_FILM = re.compile(rf"{_NUMBER} to {_NUMBER} µm", re.ASCII)

FIELDS = ("nugget", "three sheets", "film", "adhesion", "colour")
COLUMNS = ("sheet", "spacing", "overlap")

_EXAMPLES = (("three sheets", "30 %"), ("adhesion", "1"), ("colour", "1.0"))

_NIL = Decimal(0)
_NOTHING = Limits(_NIL, _NIL, _NIL, (_NIL, _NIL), 0, _NIL)


def read_limits(block: Block, desk: Desk) -> Limits:
    """The limits; useless after a mistake."""
    nameless(block, desk.ledger)
    fields, ledger = desk.fields(block, FIELDS), desk.ledger
    nugget = _said(fields.need("nugget", "3.5 to 4"), _RANGE, "3.5 to 4", ledger)
    film = _said(fields.need("film", "120 to 200 µm"), _FILM, "120 to 200 µm", ledger)
    three, adhesion, colour = (fields.need(*one) for one in _EXAMPLES)
    more = percent(three.value, three.line, ledger) if three else None
    worst = whole(adhesion.value, adhesion.line, ledger, "a class of ISO 2409", WORST) if adhesion else None
    most = decimal(colour.value, colour.line, ledger, 100) if colour else None
    spots = _spots(block, desk)
    if nugget is None or film is None or more is None or worst is None or most is None:
        return _NOTHING
    return Limits(*nugget, more, film, worst, most, spots)


def _said(field: Field | None, form: re.Pattern[str], example: str, ledger: Ledger) -> tuple[Decimal, Decimal] | None:
    return None if field is None else _range(field.value, field.line, form, example, ledger)


def _range(text: str, line: int, form: re.Pattern[str], example: str, ledger: Ledger) -> tuple[Decimal, Decimal] | None:
    """The smaller and the larger; None after a mistake."""
    found = form.fullmatch(text)
    if found is None:
        ledger.add(
            line,
            sentence("“{text}” is no range", text=shown(text)),
            sentence("write it like {example}", example=example),
        )
        return None
    low, high = Decimal(found[1]), Decimal(found[2])
    if low > high:
        ledger.add(
            line,
            sentence("the range falls from {low} to {high}", low=low, high=high),
            sentence("write the smaller one first"),
        )
    return low, high


def _spots(block: Block, desk: Desk) -> tuple[Spot, ...]:
    """By thickness; a table is needed, since no spacing follows from anything else."""
    table = table_of(block, desk.ledger, block.kind, " | ".join(COLUMNS))
    if table is None or not known_columns(table, COLUMNS, (), desk.ledger):
        return ()
    rows = [(line, [decimal(row[name], line, desk.ledger) for name in COLUMNS]) for line, row in table.dicts()]
    found = [Spot(*values) for _, values in rows if None not in values]  # type: ignore[arg-type]
    if [spot.sheet for spot in found] != sorted({spot.sheet for spot in found}):
        desk.ledger.add(
            table.line,
            sentence("the thicknesses do not rise from row to row"),
            sentence("write each once, the thinnest first"),
        )
    return tuple(found)


def read_coats(block: Block, desk: Desk) -> tuple[Coat, ...]:
    """What shells leave with."""
    desk.only_table(block)
    found = (_coat(line, row, desk) for line, row in told_rows(block, desk))
    return tuple(coat for coat in found if coat is not None)


def _coat(line: int, row: dict[str, str], desk: Desk) -> Coat | None:
    film = _range(row["film"], line, _FILM, "15 to 45 µm", desk.ledger)
    days = whole(row["overcoat"], line, desk.ledger, "a number of days") if row["overcoat"] else None
    when = desk.condition_in(row["when"], line)
    if film is None or when is None:
        return None
    return Coat(row["coat"], film, days, when, words_of(row, desk))


def read_threads(block: Block, desk: Desk) -> tuple[Thread, ...]:
    """The threads that are gauged."""
    desk.only_table(block)
    found = []
    for line, row in told_rows(block, desk):
        count = whole(row["count"], line, desk.ledger, "a number of threads", 1_000)
        when = desk.condition_in(row["when"], line)
        if count is not None and when is not None:
            found.append(Thread(row["thread"], count, when, words_of(row, desk)))
    return tuple(found)


def read_panels(block: Block, desk: Desk) -> tuple[Panel, ...]:
    """The panels on which the film is measured."""
    desk.only_table(block)
    found = []
    for line, row in told_rows(block, desk):
        when = desk.condition_in(row["when"], line)
        if when is not None:
            found.append(Panel(row["panel"], when, words_of(row, desk)))
    return tuple(found)
