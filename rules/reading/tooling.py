"""Tools: what depends on each. Their state is no part of a book."""

from __future__ import annotations

from rules.model import Tool
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import id_of
from rules.reading.mistakes import sentence


def read_tool(block: Block, desk: Desk) -> Tool | None:
    """One tool; None where too little of it can be read."""
    fields = desk.fields(block, ("needed for", "at", "stands in", "speaks as"), ("label", "reason", "clause"))
    fields.no_table()
    found, label, reason = id_of(block, desk.ledger), fields.words("label"), fields.words("reason")
    needed_for = desk.condition(fields, "needed for", "bumpers is impact")
    stands_in, speaks_as = (desk.known_if_said(fields, name, "rule") for name in ("stands in", "speaks as"))
    clause = fields.words("clause", needed=False)
    stage = desk.known_if_said(fields, "at", "stage")
    if stands_in and speaks_as:
        desk.ledger.add(
            block.line,
            sentence("{name} both is stood in for and speaks through a rule", name=fields.name),
            sentence("keep one of the two"),
        )
    if found is None or needed_for is None:
        return None
    return Tool(found, label, needed_for, reason, stands_in, speaks_as, fields.place, clause, stage)
