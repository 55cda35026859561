"""Specifications of which the firm knows what the book has to say. Whether it says so is found out elsewhere."""

from __future__ import annotations

import re

from rules.model import Known
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of, parts_of
from rules.reading.mistakes import joined, listed, offer, sentence, shown
from rules.reading.tables import known_columns, table_of
from rules.reading.values import amount

ANSWERS = ("yes", "once", "no")
COLUMNS = ("option", "choice")

_PLAIN = ("answer", "because", "price", "donor", "gearbox", "usual")
_NUMBER = re.compile(r"([A-Z0-9]{1,8})-(\d{1,9})", re.ASCII)
_PRICE = re.compile(r"(.+?) ([A-Za-z0-9-]+)", re.ASCII)


def read_known(block: Block, desk: Desk) -> Known | None:
    """One specification with its answer; None where too little of it can be read."""
    fields = desk.fields(block, _PLAIN, ("label",))
    found, label, answer = id_of(block, desk.ledger), fields.words("label"), _answer(fields)
    made, because, price = _made(fields, desk), _because(fields, desk), _price(fields, desk)
    (series, number), gearbox, usual = _donor(fields, desk), _gearbox(fields, desk), fields.yes("usual")
    if usual and made is not None:
        _check_keys(made, fields, desk)
    if found is None or answer is None or made is None:
        return None
    return Known(found, label, answer, made, usual, because, price, series, number, gearbox, fields.place)


def _answer(fields: Fields) -> str | None:
    field = fields.need("answer", "yes")
    if field and field.value not in ANSWERS:
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no answer", value=shown(field.value)),
            sentence("write one of: {words}", words=", ".join(ANSWERS)),
        )
        return None
    return field.value if field else None


def _made(fields: Fields, desk: Desk) -> dict[str, str] | None:
    table = table_of(fields.block, desk.ledger, fields.name, "body | roadster")
    if table is None or not known_columns(table, COLUMNS, (), desk.ledger):
        return None
    made: dict[str, str] = {}
    for line, row in table.dicts():
        option, choice = row["option"], row["choice"]
        if desk.names.check_option(option, line, desk.ledger):
            desk.names.check_choice(option, choice, line, desk.ledger)
        if made.setdefault(option, choice) != choice:
            desk.ledger.add(
                line, sentence("“{option}” stands here twice", option=shown(option)), sentence("take one of them out")
            )
    return made


def _check_keys(made: dict[str, str], fields: Fields, desk: Desk) -> None:
    """What was usual can only be said of a series, a market and a body."""
    missing = [option for option in desk.names.key_options if option not in made]
    if missing:
        what = sentence(
            "{name} takes over the usual, but does not say {missing}", name=fields.name, missing=joined(missing)
        )
        desk.ledger.add(fields.block.line, what, sentence("add a row for each, or take “usual” out"))


def _because(fields: Fields, desk: Desk) -> frozenset[str]:
    field = fields.get("because")
    known = (*desk.names.known("rule"), *desk.names.known("tool"))
    for word in parts_of(field.value) if field else ():
        if field and word not in known:
            desk.ledger.add(
                field.line, sentence("there is no rule and no tool “{word}”", word=shown(word)), offer(word, known)
            )
    return frozenset(parts_of(field.value) if field else ())


def _price(fields: Fields, desk: Desk) -> tuple[str, int] | None:
    field = fields.get("price")
    if field is None:
        return None
    found = _PRICE.fullmatch(field.value)
    if not found or found[2] not in desk.exponents:
        instead = sentence("write it like 11 980 and a price list: {exponents}", exponents=listed(desk.exponents))
        desk.ledger.add(field.line, sentence("“{value}” is no price", value=shown(field.value)), instead)
        return None
    minor = amount(found[1], desk.exponents[found[2]], field.line, desk.ledger)
    return None if minor is None else (found[2], minor)


def _donor(fields: Fields, desk: Desk) -> tuple[str | None, int | None]:
    """Series and number of an identity number written as the book writes it."""
    field = fields.get("donor")
    found = _NUMBER.fullmatch(field.value) if field else None
    for series, (prefix, width) in desk.names.prefixes.items() if found else ():
        low, high = desk.names.numbers[series]
        if found and found[1] == prefix and len(found[2]) == width and low <= int(found[2]) <= high:
            return series, int(found[2])
    if field:
        _no_number(field, fields)
    return None, None


def _no_number(field: Field, fields: Fields) -> None:
    what = sentence("“{value}” is no identity number of this book", value=shown(field.value))
    fields.ledger.add(field.line, what, sentence("write one of a series, as its “numbers” are written"))


def _gearbox(fields: Fields, desk: Desk) -> str | None:
    field = fields.get("gearbox")
    if field and desk.names.check_gearbox(field.value, field.line, desk.ledger):
        return field.value
    return None
