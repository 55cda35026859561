"""What the original car had: its series with their identity numbers, and the tables of what was usual."""

from __future__ import annotations

from collections.abc import Iterator

from rules.condition import All, Among, Any, Condition, Is, IsUsual, Not, SeriesAsDonor
from rules.model import Series, UsualRow
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of
from rules.reading.mistakes import sentence, shown
from rules.reading.names import NUMBERS
from rules.reading.tables import Table, known_columns, table_of


def read_series(block: Block, desk: Desk) -> Series | None:
    """One series and its identity numbers; None where too little of it can be read."""
    fields = desk.fields(block, ("years", "numbers"), ("changes",))
    fields.no_table()
    found, changes = id_of(block, desk.ledger), fields.words("changes")
    years, numbers = fields.need("years", "1961–1964"), fields.need("numbers", "T1-00251 to T1-08450")
    if found and desk.names.series_option:
        desk.names.check_choice(desk.names.series_option, found, block.line, desk.ledger)
    read = _numbers(numbers, fields) if numbers else None
    if found is None or years is None or read is None:
        return None
    return Series(found, years.value, *read, changes)


def _numbers(field: Field, fields: Fields) -> tuple[str, int, int, int] | None:
    """Prefix, first, last, digits."""
    found = NUMBERS.fullmatch(field.value)
    if not found or len(found[2]) != len(found[3]):
        what = sentence("“{value}” is no range of identity numbers", value=shown(field.value))
        fields.ledger.add(
            field.line, what, sentence("write it like T1-00251 to T1-08450: one prefix, as many digits on both sides")
        )
        return None
    prefix, first, last = found.groups()
    if int(first) > int(last):
        fields.ledger.add(
            field.line,
            sentence("{first} comes after {last}", first=first, last=last),
            sentence("write the lower number first"),
        )
    return prefix, int(first), int(last), len(first)


def check_series_apart(series: list[tuple[int, Series]], desk: Desk) -> None:
    """A mistake wherever two series claim one identity number."""
    for at, (line, later) in enumerate(series):
        for _, earlier in series[:at]:
            if later.prefix == earlier.prefix and max(later.first, earlier.first) <= min(later.last, earlier.last):
                what = sentence(
                    "the identity numbers of {choice} overlap those of {choice_2}",
                    choice=later.choice,
                    choice_2=earlier.choice,
                )
                desk.ledger.add(line, what, sentence("give each number to one series only"))


def read_usual(block: Block, desk: Desk) -> tuple[UsualRow, ...]:
    """The rows of one table of what was usual; an empty cell leaves its option to other rows."""
    desk.only_table(block)
    table = table_of(block, desk.ledger, "usual", "when | scuttle")
    if table is None or not known_columns(table, ("when",), None, desk.ledger):
        return ()
    _check_columns(table, desk)
    rows = (_row(line, dict(row), desk) for line, row in table.dicts())
    return tuple(row for row in rows if row is not None)


def _check_columns(table: Table, desk: Desk) -> None:
    for column in table.columns:
        if column in desk.names.key_options:
            desk.ledger.add(
                table.line,
                sentence("“{column}” keys the table, so it can't have a column", column=column),
                sentence("name it under “when”"),
            )
        elif column != "when":
            desk.names.check_option(column, table.line, desk.ledger)


def _row(line: int, row: dict[str, str], desk: Desk) -> UsualRow | None:
    when = _when(row.pop("when"), line, desk)
    values = {option: choice for option, choice in row.items() if choice}
    for option, choice in values.items():
        desk.names.check_choice(option, choice, line, desk.ledger)
    if not values:
        desk.ledger.add(
            line,
            sentence("the row says nothing"),
            sentence("name a choice under at least one option, or take the row out"),
        )
    return None if when is None else UsualRow(when, values)


def _when(text: str, line: int, desk: Desk) -> Condition | None:
    when = desk.condition_in(text, line)
    keys = desk.names.key_options
    strange = list(_strangers(when, keys)) if when is not None else []
    for word in dict.fromkeys(strange):
        instead = sentence(
            "name only {keys} and facts of the donor",
            keys=", ".join(keys) or "options that play series, market or body",
        )
        desk.ledger.add(line, sentence("what was usual can't hang on {word}", word=word), instead)
    return None if strange else when


def _strangers(when: Condition, keys: tuple[str, ...]) -> Iterator[str]:
    match when:
        case Is(option, _):
            yield from () if option in keys else (f"“{option}”",)
        case IsUsual() | SeriesAsDonor() | Among():
            yield "what is usual or the donor's"
        case Not(part):
            yield from _strangers(part, keys)
        case All(parts) | Any(parts):
            for part in parts:
                yield from _strangers(part, keys)
