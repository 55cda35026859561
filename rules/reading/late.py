"""What may still change after the order, stage by stage. It decides nothing of any shell."""

from __future__ import annotations

from rules.model import DESPATCHED, ORDERED, Allowed, LateChange
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of, parts_of
from rules.reading.mistakes import offer, sentence, shown
from rules.reading.tables import known_columns, table_of
from rules.reading.values import one_of

COLUMNS = ("from", "taken")


def read_change(block: Block, desk: Desk) -> LateChange | None:
    """One change with how it is taken from which stage on; None where too little of it can be read."""
    fields = desk.fields(block, ("options", "when"), ("label",))
    found, label, options = id_of(block, desk.ledger), fields.words("label"), _options(fields, desk)
    when = desk.condition_or_always(fields, "when")
    since = _since(fields, desk)
    return None if found is None or when is None or not since else LateChange(found, label, since, options, when)


def _options(fields: Fields, desk: Desk) -> tuple[str, ...]:
    field = fields.get("options")
    named = tuple(parts_of(field.value)) if field else ()
    for option in named:
        desk.names.check_option(option, field.line if field else 0, desk.ledger)
    return named


def _since(fields: Fields, desk: Desk) -> dict[str, Allowed]:
    table = table_of(fields.block, desk.ledger, fields.name, "ordered | free")
    if table is None or not known_columns(table, COLUMNS, (), desk.ledger):
        return {}
    stages = tuple(desk.names.known("stage"))
    points, since = (ORDERED, *stages, DESPATCHED), dict[str, Allowed]()
    for line, row in table.dicts():
        point, taken = row["from"], one_of(Allowed, row["taken"], line, desk.ledger, "a change can't be taken as")
        if point not in points:
            desk.ledger.add(line, sentence("there is no stage “{point}”", point=shown(point)), offer(point, points))
        if taken is not None and point in since:
            desk.ledger.add(
                line, sentence("“{point}” stands here twice", point=shown(point)), sentence("take one of them out")
            )
        elif taken is not None:
            since[point] = taken
    if since and ORDERED not in since:
        what = sentence("{name} does not say how it is taken at first", name=fields.name)
        desk.ledger.add(table.line, what, sentence("begin with a row “ordered”"))
    return since
