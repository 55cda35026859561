"""Options: a question, its choices and the price of each."""

from __future__ import annotations

from rules.condition import Is
from rules.model import Choice, Line, Option
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, check_proper, id_of, no_placeholder, parts_of
from rules.reading.mistakes import listed, sentence, shown
from rules.reading.names import RESERVED
from rules.reading.prices import amounts_of
from rules.reading.rows import words_of
from rules.reading.tables import Table, known_columns, table_of

_PLAIN = ("group", "structural", "category", "lost", "base")


def read_option(block: Block, desk: Desk) -> tuple[Option, tuple[Line, ...]] | None:
    """An option and the price lines of its choices; None where too little of it can be read."""
    fields = desk.fields(block, _PLAIN, ("label", "help"))
    found, label = id_of(block, desk.ledger), fields.words("label")
    group = desk.known(fields, "group", "group", listed(desk.names.known("group"), 1) or "structure")
    choices, amounts = _choices(fields, desk)
    structural, base = fields.yes("structural"), fields.yes("base")
    helping = fields.words("help", needed=False)
    category = _category(fields, desk, bool(amounts))
    if found is None or group is None or not choices:
        return None
    option = Option(found, group, label, choices, structural, helping, fields.place)
    return option, tuple(
        _line(option, choice, amounts[choice.id], category, base) for choice in choices if choice.id in amounts
    )


def _category(fields: Fields, desk: Desk, priced: bool) -> str:
    if priced or fields.has("category"):
        return desk.known(fields, "category", "category", listed(desk.names.known("category"), 1) or "A") or ""
    return ""


def _choices(fields: Fields, desk: Desk) -> tuple[tuple[Choice, ...], dict[str, dict[str, int]]]:
    columns = ("choice", *desk.languages, *desk.exponents)
    table = table_of(fields.block, desk.ledger, fields.name, " | ".join(columns))
    if table is None or not known_columns(table, columns, (), desk.ledger):
        return (), {}
    lost = _lost(fields, desk)
    return _read_rows("-".join(fields.block.words), table, lost, desk)


def _read_rows(
    option: str, table: Table, lost: frozenset[str], desk: Desk
) -> tuple[tuple[Choice, ...], dict[str, dict[str, int]]]:
    choices: dict[str, Choice] = {}
    amounts: dict[str, dict[str, int]] = {}
    for line, row in table.dicts():
        name = row["choice"]
        _check_choice(name, line, row, choices, desk)
        choices.setdefault(name, _choice(option, name, row, name in lost, desk))
        priced = amounts_of(line, row, desk)
        if priced is not None:
            amounts.setdefault(name, priced)
    return tuple(choices.values()), amounts


def _choice(option: str, name: str, row: dict[str, str], lost: bool, desk: Desk) -> Choice:
    clause, shell = desk.phrases.get((option, name), ({}, {}))
    return Choice(name, words_of(row, desk), lost, clause, shell)


def _check_choice(name: str, line: int, row: dict[str, str], choices: dict[str, Choice], desk: Desk) -> None:
    check_proper(name, "choice", line, desk.ledger)
    if name in RESERVED:
        desk.ledger.add(
            line,
            sentence("“{name}” is a word of the conditions, so no choice can be called so", name=name),
            sentence("choose another id"),
        )
    if name in choices:
        desk.ledger.add(
            line,
            sentence("the choice “{name}” stands here twice", name=shown(name)),
            sentence("give it another id, or take one out"),
        )
    for code in desk.languages:
        no_placeholder(row[code], code, line, desk.ledger)
        if not row[code]:
            desk.ledger.add(
                line,
                sentence("the choice “{name}” has no label in {code}", name=shown(name), code=code),
                sentence("fill the cell under {code}", code=code),
            )


def _lost(fields: Fields, desk: Desk) -> frozenset[str]:
    field = fields.get("lost")
    words = parts_of(field.value) if field else []
    option = "-".join(fields.block.words)
    return frozenset(w for w in words if field and desk.names.check_choice(option, w, field.line, desk.ledger))


def _line(option: Option, choice: Choice, amounts: dict[str, int], category: str, base: bool) -> Line:
    label = {code: f"{option.label[code]}: {choice.label[code]}" for code in option.label if code in choice.label}
    when = Is(option.id, frozenset((choice.id,)))
    return Line(f"{option.id}.{choice.id}", when, category, label, amounts, option.id, choice.id, base)
