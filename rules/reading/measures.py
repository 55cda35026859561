"""Size and mass of what is sent, as the firm states them. It works nothing out and knows no units but mm and kg."""

from __future__ import annotations

import re

from rules.model import Measure
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of
from rules.reading.mistakes import sentence, shown

_SIZE = re.compile(r"([1-9]\d{0,4}) [x×] ([1-9]\d{0,4}) [x×] ([1-9]\d{0,4}) mm", re.ASCII)
_MASS = re.compile(r"([1-9]\d{0,4}) to ([1-9]\d{0,4}) kg", re.ASCII)


def read_measure(block: Block, desk: Desk) -> Measure | None:
    """A size, a mass or both, of what `when` speaks of."""
    fields = desk.fields(block, ("when", "size", "mass"), ("label",))
    fields.no_table()
    found, label, when = id_of(block, desk.ledger), fields.words("label"), desk.condition(fields, "when", "always")
    size = _figures(fields, "size", _SIZE, "4100 x 1750 x 1400 mm") or (0, 0, 0)
    mass = _rising(fields, _figures(fields, "mass", _MASS, "260 to 330 kg") or (0, 0))
    if not fields.has("size") and not fields.has("mass"):
        what = sentence("{name} has neither a size nor a mass", name=fields.name)
        desk.ledger.add(block.line, what, sentence("add a line like “mass: 260 to 330 kg”"))
    return None if found is None or when is None else Measure(found, when, label, *size, *mass)


def _figures(fields: Fields, name: str, form: re.Pattern[str], example: str) -> tuple[int, ...] | None:
    field = fields.get(name)
    found = form.fullmatch(field.value) if field else None
    if field and not found:
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no {name}", value=shown(field.value), name=name),
            sentence("write it like {example}", example=example),
        )
    return tuple(map(int, found.groups())) if found else None


def _rising(fields: Fields, mass: tuple[int, ...]) -> tuple[int, ...]:
    field = fields.get("mass")
    if field and mass[0] > mass[1]:
        fields.ledger.add(
            field.line,
            sentence("the mass falls from {mass} to {mass_2} kg", mass=mass[0], mass_2=mass[1]),
            sentence("write the smaller one first"),
        )
    return mass
