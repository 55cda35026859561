"""The book's own block and the small tables that everything else names: price lists, categories, groups, roles."""

from __future__ import annotations

import re

from rules.model import Category, Group, PriceList, Role
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import id_of, nameless, parts_of
from rules.reading.mistakes import Ledger, listed, sentence, shown
from rules.reading.rows import Told, rows_of, words_of
from rules.reading.values import exponent_of

_LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Z]{2})?", re.ASCII)


def languages_of(blocks: list[Block], ledger: Ledger) -> tuple[str, ...]:
    """The languages that the book's block names; a mistake where it names none.

    Where they can't be read, those of the book's title count, so that not every text becomes a mistake.
    """
    book = next((block for block in blocks if block.kind == "book"), None)
    if book is None:
        return ()
    said = [field for field in book.fields if field.name == "languages"]
    if not said:
        ledger.add(
            book.line,
            sentence("the book names no languages"),
            sentence("add a line “languages: en, de” below “book …”"),
        )
    codes = [code for code in parts_of(said[0].value if said else "") if _language(code, said[0].line, ledger)]
    titled = [field.name.removeprefix("title ") for field in book.fields if field.name.startswith("title ")]
    sound = bool(codes) and len(codes) == len(parts_of(said[0].value))
    return tuple(dict.fromkeys(codes if sound else (*codes, *(c for c in titled if _LANGUAGE.fullmatch(c)))))


def _language(code: str, line: int, ledger: Ledger) -> bool:
    if _LANGUAGE.fullmatch(code):
        return True
    ledger.add(
        line,
        sentence("“{code}” is no language code", code=shown(code)),
        sentence("write two small letters (ISO 639), like en, de"),
    )
    return False


def read_title(block: Block, desk: Desk) -> tuple[str, dict[str, str]]:
    """The book's id and its title in every language."""
    fields = desk.fields(block, ("languages", "gearboxes"), ("title",))
    fields.no_table()
    return id_of(block, desk.ledger) or "", fields.words("title")


def read_lists(block: Block, desk: Desk) -> tuple[PriceList, ...]:
    """The price lists; their decimals go onto the desk."""
    found = []
    for line, row in _rows(block, desk):
        if exponent_of(row["currency"]) is None:
            what = sentence("“{currency}” is no currency", currency=shown(row["currency"]))
            desk.ledger.add(line, what, sentence("write its ISO 4217 code, like GBP, EUR or USD"))
        desk.exponents[row["list"]] = 2 if exponent_of(row["currency"]) is None else exponent_of(row["currency"]) or 0
        found.append(PriceList(row["list"], row["currency"], words_of(row, desk)))
    return tuple(found)


def read_categories(block: Block, desk: Desk) -> tuple[Category, ...]:
    """The discount categories."""
    return tuple(Category(row["category"], words_of(row, desk)) for _, row in _rows(block, desk))


def read_groups(block: Block, desk: Desk) -> tuple[Group, ...]:
    """The groups of options, in the order they are shown."""
    return tuple(Group(row["group"], words_of(row, desk)) for _, row in _rows(block, desk))


def read_roles(block: Block, desk: Desk) -> dict[Role, str]:
    """Which option plays which part for the service."""
    nameless(block, desk.ledger)
    fields = desk.fields(block, tuple(role.value for role in Role))
    fields.no_table()
    found = {role: fields.get(role.value) for role in Role}
    return {role: f.value for role, f in found.items() if f and desk.names.check_option(f.value, f.line, desk.ledger)}


def _rows(block: Block, desk: Desk) -> list[Told]:
    desk.only_table(block)
    rows = rows_of(block, desk)
    for line, row in rows:
        if empty := [column for column, cell in row.items() if not cell]:
            desk.ledger.add(
                line,
                sentence("the row says nothing under {empty}", empty=listed(empty)),
                sentence("fill every cell of this table"),
            )
    return rows
