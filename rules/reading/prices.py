"""Prices: the amounts in a row of a table, lines that stand by themselves, adjustments of lines, extras."""

from __future__ import annotations

from decimal import Decimal

from rules.model import Adjustment, Extra, Line
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of, parts_of
from rules.reading.mistakes import Ledger, offer, sentence, shown
from rules.reading.tables import known_columns, table_of
from rules.reading.values import INCLUDED, amount, decimal


def amounts_of(line: int, row: dict[str, str], desk: Desk) -> dict[str, int] | None:
    """price list → minor units, without the lists whose cell is empty; None where all say “included”."""
    cells = {price_list: row[price_list] for price_list in desk.exponents}
    if all(cell in INCLUDED for cell in cells.values()):
        return None
    read = {price_list: _cell(price_list, cell, line, desk) for price_list, cell in cells.items() if cell}
    return {price_list: value for price_list, value in read.items() if value is not None}


def _cell(price_list: str, cell: str, line: int, desk: Desk) -> int | None:
    return 0 if cell in INCLUDED else amount(cell, desk.exponents[price_list], line, desk.ledger)


def read_line(block: Block, desk: Desk) -> Line | None:
    """A line beside the choices' own prices: an allowance, a charge for a combination."""
    fields = desk.fields(block, ("when", "category", "base"), ("label",))
    found, label = id_of(block, desk.ledger), fields.words("label")
    when = desk.condition(fields, "when", "own-doors is yes")
    category = desk.known(fields, "category", "category", "A")
    amounts, base = _own_amounts(fields, desk), fields.yes("base")
    if found is None or when is None or category is None or amounts is None:
        return None
    return Line(found, when, category, label, amounts, base=base)


def read_extra(block: Block, desk: Desk) -> Extra | None:
    """Something sold beside the specification."""
    fields = desk.fields(block, ("category",), ("label", "unit"))
    found, label, unit = id_of(block, desk.ledger), fields.words("label"), fields.words("unit")
    category, amounts = desk.known(fields, "category", "category", "C"), _own_amounts(fields, desk)
    if found is None or category is None or amounts is None:
        return None
    return Extra(found, label, unit, category, amounts)


def _own_amounts(fields: Fields, desk: Desk) -> dict[str, int] | None:
    """The amounts of a table of one row."""
    table = table_of(fields.block, desk.ledger, fields.name, " | ".join(desk.exponents))
    if table is None or not known_columns(table, desk.exponents, (), desk.ledger):
        return None
    if len(table.rows) != 1:
        what = sentence("{name} has {count} rows of amounts", name=fields.name, count=len(table.rows))
        if len(fields.block.rows) == 1 or len(table.rows) > 1:
            desk.ledger.add(table.line, what, sentence("write one row of amounts below the names of the price lists"))
        return None
    line, row = next(table.dicts())
    read = amounts_of(line, row, desk)
    return dict.fromkeys(desk.exponents, 0) if read is None else read


def read_adjustment(block: Block, desk: Desk) -> Adjustment | None:
    """What multiplies or waives lines while other choices hold."""
    fields = desk.fields(block, ("when", "lines", "times", "waived"), ("label",))
    fields.no_table()
    found, label = id_of(block, desk.ledger), fields.words("label")
    when = desk.condition(fields, "when", "colour is frost or sleet")
    lines, factor = _adjusted(fields, desk), _factor(fields)
    if found is None or when is None or factor is None:
        return None
    return Adjustment(found, lines, when, factor, label, waives=fields.has("waived"))


def _factor(fields: Fields) -> Decimal | None:
    times, waived = fields.get("times"), fields.get("waived")
    if (times is None) == (waived is None):
        what = (
            sentence("{name} says both “times” and “waived”", name=fields.name)
            if times
            else sentence("{name} does not say what it does", name=fields.name)
        )
        fields.ledger.add(fields.block.line, what, sentence("write either “times: 1.12” or “waived: yes”"))
        return None
    if waived and waived.value != "yes":
        fields.ledger.add(
            waived.line, sentence("“waived” can only be yes"), sentence("write “waived: yes”, or take the block out")
        )
    return _multiplied(times, fields.ledger) if times else Decimal(0)


def _multiplied(times: Field, ledger: Ledger) -> Decimal | None:
    """By what. Free of charge is said in words, so that a slip of the finger isn't."""
    factor = decimal(times.value, times.line, ledger, most=100)
    if factor != 0 or ledger.published:
        return factor
    what = sentence("“times: {text}” would make these lines free of charge", text=shown(times.value))
    instead = sentence("write “waived: yes” instead if they are to be, else a number above 0, like 1.12")
    ledger.add(times.line, what, instead)
    return None


def _adjusted(fields: Fields, desk: Desk) -> tuple[str, ...]:
    """Line ids; an option's own id stands for the lines of all its choices."""
    field = fields.need("lines", "scope")
    found = [_named(word, field.line, desk) for word in parts_of(field.value)] if field else []
    return tuple(dict.fromkeys(line for lines in found for line in lines))


def _named(word: str, line: int, desk: Desk) -> tuple[str, ...]:
    option, _, choice = word.partition(".")
    if word in desk.names.ids.get("line", {}):
        return (word,)
    if option in desk.names.ids.get("option", {}):
        return _of_option(option, choice, line, desk)
    known = (*desk.names.known("line"), *desk.names.known("option"))
    desk.ledger.add(line, sentence("there is no line and no option “{word}”", word=shown(word)), offer(word, known))
    return ()


def _of_option(option: str, choice: str, line: int, desk: Desk) -> tuple[str, ...]:
    priced = desk.priced.get(option, desk.names.choices.get(option, ()))
    wanted = (choice,) if choice else priced
    if choice and not desk.names.check_choice(option, choice, line, desk.ledger):
        return ()
    if not wanted or not set(wanted) <= set(priced):
        what = (
            sentence("“{option}.{choice}” has no price", option=option, choice=choice)
            if choice
            else sentence("no choice of “{option}” has a price", option=option)
        )
        desk.ledger.add(
            line,
            sentence("{what}, so nothing can change it", what=what),
            sentence("give it one, or take it out of this list"),
        )
    return tuple(f"{option}.{each}" for each in wanted)
