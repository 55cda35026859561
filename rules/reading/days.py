"""Days: stages and what they can take, additions, the firm's calendar and its yearly closures."""

from __future__ import annotations

import re
from decimal import Decimal

from rules.condition import ALWAYS
from rules.model import Addition, Calendar, Closure, Stage, Work
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of, nameless
from rules.reading.mistakes import sentence, shown
from rules.reading.values import day_of_year, decimal, one_of, percent, whole

_ZONE = re.compile(r"UTC|[A-Za-z_]+(/[A-Za-z0-9_+-]+){1,2}", re.ASCII)
_HOLIDAYS = re.compile(r"([A-Z]{2})(?:-([A-Z0-9]{1,3}))?", re.ASCII)
MOST_DAYS = 1_000


def read_stage(block: Block, desk: Desk) -> Stage | None:
    """One stage of building; None where too little of it can be read."""
    fields = desk.fields(block, ("days", "before slot", "a week", "bays", "changeover", "work"), ("label",))
    fields.no_table()
    found, label, days = id_of(block, desk.ledger), fields.words("label"), _days(fields)
    ahead, week, bays = fields.yes("before slot"), fields.get("a week"), fields.get("bays")
    per_week = decimal(week.value, week.line, desk.ledger) if week else None
    room = whole(bays.value, bays.line, desk.ledger) if bays else None
    changeover, changeover_of = _changeover(fields, desk)
    if found is None or days is None:
        return None
    return Stage(found, label, days, ahead, per_week, room, changeover, changeover_of, _work(fields))


def _work(fields: Fields) -> Work:
    field = fields.get("work")
    work = field and one_of(Work, field.value, field.line, fields.ledger, "a stage's work can't be")
    return work or Work.BUILD


def _days(fields: Fields) -> int | None:
    field = fields.need("days", "5")
    return whole(field.value, field.line, fields.ledger, "a number of working days", MOST_DAYS) if field else None


def _changeover(fields: Fields, desk: Desk) -> tuple[Decimal, str | None]:
    """Slots, and the option whose change costs them: `0.5 between body`."""
    field = fields.get("changeover")
    if field is None:
        return Decimal(0), None
    found = re.fullmatch(r"(\S+) slots? between (\S+)", field.value)
    if not found:
        what = sentence("“{value}” is no changeover", value=shown(field.value))
        desk.ledger.add(
            field.line,
            what,
            sentence("write it like “0.5 slot between body”: slots lost, and the option whose change costs them"),
        )
        return Decimal(0), None
    desk.names.check_option(found[2], field.line, desk.ledger)
    return decimal(found[1], field.line, desk.ledger, most=10) or Decimal(0), found[2]


def read_addition(block: Block, desk: Desk) -> Addition | None:
    """More working days at a stage while a condition holds."""
    fields = desk.fields(block, ("stage", "days", "when", "from gate"), ("label",))
    fields.no_table()
    found, label, days = id_of(block, desk.ledger), fields.words("label"), _days(fields)
    stage = desk.known(fields, "stage", "stage", "fit-and-gap")
    when, from_gate = desk.condition(fields, "when", "trial-fit is not none"), fields.yes("from gate")
    if found is None or stage is None or days is None or when is None:
        return None
    if when == ALWAYS:
        desk.ledger.add(
            block.line, sentence("{name} always holds", name=fields.name), sentence("add its days to the stage itself")
        )
    return Addition(found, stage, days, when, label, from_gate)


def read_closure(block: Block, desk: Desk) -> Closure | None:
    """Days on which the firm is closed every year."""
    fields = desk.fields(block, ("every year",), ("label",))
    fields.no_table()
    nameless(block, desk.ledger)
    label, field = fields.words("label"), fields.need("every year", "2 August to 13 August")
    days = _from_to(field, desk) if field else None
    return None if days is None else Closure(label, *days)


def _from_to(field: Field, desk: Desk) -> tuple[tuple[int, int], tuple[int, int]] | None:
    first, _, last = field.value.partition(" to ")
    start = day_of_year(first.strip(), field.line, desk.ledger)
    end = day_of_year((last or first).strip(), field.line, desk.ledger)
    if start is None or end is None:
        return None
    if start > end:
        desk.ledger.add(
            field.line,
            sentence("the closure ends before it begins"),
            sentence("divide it at the new year into two blocks “closed”"),
        )
    return start, end


def read_calendar(block: Block, desk: Desk, closures: tuple[Closure, ...]) -> Calendar:
    """The firm's zone, public holidays, the width of a quoted date and the planned load."""
    nameless(block, desk.ledger)
    fields = desk.fields(block, ("zone", "holidays", "spread", "load"))
    fields.no_table()
    country, subdivision = _holidays(fields)
    spread = fields.need("spread", "10")
    width = whole(spread.value, spread.line, desk.ledger, "a number of working days", MOST_DAYS) if spread else None
    return Calendar(_zone(fields), country, subdivision, closures, width or 0, *_load(fields))


def _zone(fields: Fields) -> str:
    field = fields.need("zone", "Europe/London")
    if field and not _ZONE.fullmatch(field.value):
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no time zone", value=shown(field.value)),
            sentence("write it like Europe/London"),
        )
    return field.value if field else "UTC"


def _holidays(fields: Fields) -> tuple[str, str | None]:
    """Country and subdivision as ISO 3166 names them."""
    field = fields.need("holidays", "GB-ENG")
    found = _HOLIDAYS.fullmatch(field.value) if field else None
    if field and not found:
        what = sentence("“{value}” names no region", value=shown(field.value))
        fields.ledger.add(field.line, what, sentence("write its ISO 3166 code, like GB-ENG or DE-BY or FR"))
    return (found[1], found[2]) if found else ("", None)


def _load(fields: Fields) -> tuple[Decimal, int]:
    """Percent of capacity planned, and over how many weeks: `85 % over 2 weeks`."""
    field = fields.get("load")
    if field is None:
        return Decimal(100), 1
    found = re.fullmatch(r"(.+?) over (\d{1,2}) weeks?", field.value, re.ASCII)
    if not found or found[2] == "0":
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no planned load", value=shown(field.value)),
            sentence("write it like 85 % over 2 weeks"),
        )
        return Decimal(100), 1
    return percent(found[1], field.line, fields.ledger) or Decimal(100), int(found[2])
