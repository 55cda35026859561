"""Texts of papers and letters in the firm's own words. Which there are and what each can name is `rules.wordings`."""

from __future__ import annotations

from rules.model import Wording
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import id_of
from rules.reading.mistakes import offer, sentence, shown
from rules.wordings import WORDINGS, spoken

#: Of a text that there is none of nothing more is asked.
_ANYTHING = tuple({slot for slots in WORDINGS.values() for slot in slots})


def read_wording(block: Block, desk: Desk) -> Wording | None:
    """One text in every language of the book, with nothing in braces but what it can name."""
    fields = desk.fields(block, (), ("text",))
    fields.no_table()
    found = id_of(block, desk.ledger)
    text = fields.words("text", slots=WORDINGS.get(found or "", _ANYTHING))
    if found is not None and found not in WORDINGS:
        desk.ledger.add(
            block.line,
            sentence("no paper or letter has a text “{found}”", found=shown(found)),
            offer(found, tuple(WORDINGS)),
        )
    return None if found is None else Wording(found, {code: spoken(said) for code, said in text.items()})
