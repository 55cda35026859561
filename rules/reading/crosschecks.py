"""What only the whole book shows: series without numbers, roles that nobody plays, lists that nobody needs."""

from __future__ import annotations

from rules.model import Book, Role
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.original import check_series_apart

Blocks = dict[str, list[Block]]


def check(book: Book, blocks: Blocks, desk: Desk) -> None:
    """Every check of the book as a whole; mistakes go into the ledger."""
    if not blocks.get("option") and blocks.get("book"):
        desk.ledger.add(blocks["book"][0].line, "the book asks nothing", "add at least one block “option some-name”")
    _series_apart(book, blocks, desk)
    _series_whole(blocks, desk)
    _delivery_told(blocks, desk)


def _series_apart(book: Book, blocks: Blocks, desk: Desk) -> None:
    lines = {"-".join(block.words): block.line for block in blocks.get("series", [])}
    check_series_apart([(lines[series.choice], series) for series in book.series], desk)


def _series_whole(blocks: Blocks, desk: Desk) -> None:
    """A book with identity numbers has them for every series that can be ordered."""
    option = desk.names.series_option
    told = set(desk.names.known("series"))
    if told and option is None:
        desk.ledger.add(
            blocks["series"][0].line, "no option plays the series", "add a line “series: some-option” below “roles”"
        )
    for choice in desk.names.choices.get(option or "", ()) if told else ():
        if choice not in told:
            line = desk.names.ids["option"].get(option or "", 1)
            desk.ledger.add(line, f"the series “{choice}” has no identity numbers", f"add a block “series {choice}”")


def _delivery_told(blocks: Blocks, desk: Desk) -> None:
    option = desk.names.roles.get(Role.DELIVERY)
    if option in desk.names.choices and not blocks.get("delivery"):
        line = desk.names.ids["option"].get(option or "", 1)
        desk.ledger.add(
            line, f"nothing says where the choices of “{option}” go", "add a block “delivery” with a row for each"
        )
