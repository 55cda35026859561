"""What is measured on a shell: gaps with their points, datums and diagonals, each with what it should be."""

from __future__ import annotations

import re
from decimal import Decimal

from rules.inspection.general import CLASSES, general_tolerance
from rules.making import Datum, Gap, Point, Reach, Side, Target
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of
from rules.reading.making import place
from rules.reading.mistakes import Ledger, sentence, shown
from rules.reading.rows import told_rows, words_of
from rules.reading.values import one_of

_TARGET = re.compile(r"(\d{1,5}(?:\.\d{1,2})?) ± (\d{1,3}(?:\.\d{1,2})?) mm", re.ASCII)
_GENERAL = re.compile(r"(\d{1,5}(?:\.\d{1,2})?) mm ISO 2768-([a-z])", re.ASCII)
_LIMIT = re.compile(r"(\d{1,3}(?:\.\d{1,2})?) mm", re.ASCII)


def read_gap(block: Block, desk: Desk) -> Gap | None:
    """A gap, what it should be in metal and painted, and its points."""
    fields = desk.fields(
        block, ("stage", "metal", "painted", "flush", "taper", "across", "customers", "leading", "when"), ("label",)
    )
    found, label = id_of(block, desk.ledger), fields.words("label")
    stage = desk.known(fields, "stage", "stage", "fit-and-gap")
    metal, painted = _target(fields, "metal", "4.5 ± 1.0 mm"), _target(fields, "painted", "4.0 ± 1.0 mm")
    flush = _target(fields, "flush", "0 ± 1.0 mm")
    when = desk.condition_or_always(fields, "when")
    customers = desk.known_if_said(fields, "customers", "rule")
    limits = [_limit(fields, name) for name in ("taper", "across")]
    points = _points(block, desk)
    if found is None or stage is None or when is None or metal is None or painted is None or flush is None:
        return None
    return Gap(found, stage, metal, painted, flush, when, label, points, limits[0], limits[1], customers,
               fields.yes("leading"))  # fmt: skip


def _target(fields: Fields, name: str, example: str) -> Target | None:
    field = fields.need(name, example)
    return target(field.value, field.line, fields.ledger, example) if field else None


def target(text: str, line: int, ledger: Ledger, example: str) -> Target | None:
    """`4.5 ± 1.0 mm`, or `480 mm ISO 2768-m`; None after a mistake."""
    if general := _GENERAL.fullmatch(text):
        return _general(general[1], general[2], line, ledger)
    found = _TARGET.fullmatch(text)
    if found is None:
        ledger.add(
            line,
            sentence("“{text}” is no measure with its tolerance", text=shown(text)),
            sentence("write it like {example}", example=example),
        )
        return None
    return Target(Decimal(found[1]), Decimal(found[2]))


def _general(nominal: str, tolerance_class: str, line: int, ledger: Ledger) -> Target | None:
    allowed = general_tolerance(Decimal(nominal), tolerance_class)
    if allowed is None:
        what = sentence(
            "ISO 2768-1 gives no tolerance of class {tolerance_class} for {nominal} mm",
            tolerance_class=tolerance_class,
            nominal=nominal,
        )
        instead = sentence(
            "name a class of {classes} that has one, or write the tolerance itself", classes=", ".join(CLASSES)
        )
        ledger.add(line, what, instead)
        return None
    return Target(Decimal(nominal), allowed, tolerance_class)


def _limit(fields: Fields, name: str) -> Decimal | None:
    field = fields.get(name)
    found = _LIMIT.fullmatch(field.value) if field else None
    if field and found is None:
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no limit", value=shown(field.value)),
            sentence("write millimetres like 1.0 mm"),
        )
    return Decimal(found[1]) if found else None


def _points(block: Block, desk: Desk) -> tuple[Point, ...]:
    rows = told_rows(block, desk)
    found = []
    for line, row in rows:
        side = one_of(Side, row["side"], line, desk.ledger, "there is no side")
        when = desk.condition_in(row["when"], line)
        x, y = place(row, line, desk)
        if side is not None and when is not None:
            found.append(Point(row["point"], side, x, y, when, words_of(row, desk)))
    return tuple(found)


def read_datums(block: Block, desk: Desk) -> tuple[Datum, ...]:
    """Datums and diagonals."""
    desk.only_table(block)
    found = []
    for line, row in told_rows(block, desk):
        reach = one_of(Reach, row["sort"], line, desk.ledger, "there is no sort of datum")
        desk.names.check("stage", row["stage"], line, desk.ledger)
        aim = target(row["target"], line, desk.ledger, "2300 ± 1.5 mm")
        when = desk.condition_in(row["when"], line)
        if reach is not None and aim is not None and when is not None:
            found.append(Datum(row["datum"], reach, row["stage"], aim, when, words_of(row, desk)))
    return tuple(found)
