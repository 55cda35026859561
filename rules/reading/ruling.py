"""Rules: a sentence (never, needs), a table of the combinations that exist, or what a shell depends on."""

from __future__ import annotations

from rules.condition import Among, Condition
from rules.model import Kind, Rule
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of
from rules.reading.mistakes import joined, offer, sentence, shown
from rules.reading.tables import Table, table_of

#: Kinds that a rule may have two of.
_SPEAKING = (Kind.PART, Kind.APPROVAL, Kind.CAUTION, Kind.HOLD)
_PAIRS = {f"{a.value} and {b.value}": frozenset((a, b)) for a in _SPEAKING for b in _SPEAKING if a is not b}
_SPEAKS = {**{kind.value: frozenset((kind,)) for kind in (Kind.NEVER, *_SPEAKING)}, **_PAIRS}
_TABLE = "these exist"
_PLAIN = (*_SPEAKS, "needs", "where", _TABLE, "before")
_EXAMPLE = "bumpers is impact"


def read_rule(block: Block, desk: Desk) -> Rule | None:
    """One rule; None where too little of it can be read."""
    fields = desk.fields(block, _PLAIN, ("reason", "title", "part", "clause"))
    found, reason, title = id_of(block, desk.ledger), fields.words("reason"), fields.words("title", needed=False)
    clause, said = fields.words("clause", needed=False), _said(fields, desk)
    kinds = said[0] if said else frozenset()
    part = fields.words("part", needed=Kind.PART in kinds)
    before = desk.known_if_said(fields, "before", "stage")
    if said and Kind.PART not in kinds and (part or (before and Kind.HOLD not in kinds)):
        desk.ledger.add(
            block.line,
            sentence("{name} names a part but asks for none", name=fields.name),
            sentence("write “part: condition”, or take it out"),
        )
    if found is None or said is None:
        return None
    return Rule(found, kinds, said[1], said[2], reason, title, part, before, fields.place, clause)


def _said(fields: Fields, desk: Desk) -> tuple[frozenset[Kind], Condition, Condition | None] | None:
    """Kinds, when, needs."""
    speaks = [name for name in (*_SPEAKS, "needs", _TABLE) if fields.has(name)]
    if len(speaks) != 1:
        _not_one(fields, speaks)
        return None
    if speaks[0] != _TABLE:
        fields.no_table()
    if speaks[0] in ("needs", _TABLE):
        return _needing(fields, desk, speaks[0])
    if fields.has("where"):
        fields.ledger.add(
            fields.block.line,
            sentence("“where” goes with “needs” only, not with “{speaks}”", speaks=speaks[0]),
            sentence("join both conditions with “and”"),
        )
    when = desk.condition(fields, speaks[0], _EXAMPLE)
    return None if when is None else (_SPEAKS[speaks[0]], when, None)


def _not_one(fields: Fields, speaks: list[str]) -> None:
    if speaks:
        what = sentence(
            "{name} says {speaks}",
            name=fields.name,
            speaks=joined([sentence("“{word}”", word=name) for name in speaks]),
        )
        instead = sentence(
            "make two rules of it; two kinds on one condition are written “approval and caution: condition”"
        )
    else:
        what = sentence("{name} has no condition", name=fields.name)
        instead = sentence(
            "add “never: …”, “needs: …”, “these exist:”, “part: …”, “approval: …”, “caution: …” or “hold: …”"
        )
    fields.ledger.add(fields.block.line, what, instead)


def _needing(fields: Fields, desk: Desk, name: str) -> tuple[frozenset[Kind], Condition, Condition | None] | None:
    when = desk.condition_or_always(fields, "where")
    needs = _existing(fields, desk) if name == _TABLE else desk.condition(fields, name, _EXAMPLE)
    return None if when is None or needs is None else (frozenset((Kind.NEEDS,)), when, needs)


def _existing(fields: Fields, desk: Desk) -> Condition | None:
    table = table_of(fields.block, desk.ledger, fields.name, "bumpers | rail-ends")
    if table is None:
        return None
    known = [desk.names.check_option(column, table.line, desk.ledger) for column in table.columns]
    if not table.rows and len(fields.block.rows) == 1:
        desk.ledger.add(
            table.line, sentence("the table has no combination"), sentence("add a row for each combination that exists")
        )
    if not all(known) or not table.rows:
        return None
    return Among(table.columns, frozenset(_combinations(table, desk)))


def _combinations(table: Table, desk: Desk) -> list[tuple[str, ...]]:
    domains = [desk.names.choices.get(option, ()) for option in table.columns]
    choices = [frozenset(domain) for domain in domains]
    seen: dict[tuple[str, ...], int] = {}
    for row in table.rows:
        for option, domain, among, cell in zip(table.columns, domains, choices, row.cells, strict=True):
            if among and cell not in among:
                desk.ledger.add(
                    row.line,
                    sentence("“{option}” has no choice “{choice}”", option=option, choice=shown(cell)),
                    offer(cell, domain),
                )
        if seen.setdefault(row.cells, row.line) != row.line:
            desk.ledger.add(
                row.line,
                sentence("the combination stands here twice, first on line {seen}", seen=seen[row.cells]),
                sentence("take one of them out"),
            )
    return list(seen)
