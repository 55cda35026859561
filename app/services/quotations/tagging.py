"""The tags of a revision's customer's parts, one for each part of each shell.

They are printed anew each time and not kept: the day by which a part is needed moves with the shell's slot.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from app.documents.contents import QuotationPaper
from app.documents.workshop.part_tag import PartTag, PartTags, part_tags_pdf
from app.domain.asking.actor import Actor
from app.services.answering.pricing import day_of
from app.services.planning import promising
from app.services.planning.dating import Working
from app.services.quotations import handing_out, papering
from app.store import orders
from app.store.db import Store

#: On which of the firm's papers a standing caution of the book is printed.
PART_TAG = "part-tag"


@dataclass(frozen=True, slots=True)
class _Ordered:
    """`due`: place of a shell in its order, from 1 → rule → last day; only of shells that have a slot."""

    number: str = ""
    due: Mapping[int, Mapping[str, date | None]] | None = None


def part_tags(
    store: Store, actor: Actor, number: str, letter: str, language: str, size: str, working: Working, now: datetime
) -> bytes:
    """A PDF, a sheet for each tag; it names no price and no customer. Raises as `handing_out.paper`."""
    sheetful = handing_out.sheetful_of(store, actor, number, letter, (language, size), now)
    paper = papering.paper_of(sheetful, language, size)
    ordered = _ordered(store, actor, number, letter, working, now)
    tags = PartTags(
        quotation=paper,
        tags=tuple(replace(tag, address=_address(paper.address, tag.number)) for tag in _tags(number, paper, ordered)),
        order=ordered.number,
        cautions=papering.cautions_on(sheetful, PART_TAG),
        printed=day_of(paper.book, now),
    )
    with papering.PRESS:
        return part_tags_pdf(tags)


def tag_number(quotation: str, line: int, piece: int, rule: str) -> str:
    """The same on every revision and every print: quotation, line and piece from 1, rule."""
    return f"{quotation}/{line}.{piece}/{rule}"


@dataclass(frozen=True, slots=True)
class Tag:
    """What a tag's number says; `line` and `piece` count from 1."""

    quotation: str
    line: int
    piece: int
    rule: str

    @property
    def number(self) -> str:
        return tag_number(self.quotation, self.line, self.piece, self.rule)


def _address(of_quotation: str, number: str) -> str:
    """Where the part is taken in: at the same desk as that to which the quotation's own code leads."""
    desk, found, _ = of_quotation.rpartition("/q/")
    return f"{desk}/parts/{number}" if found else ""


def _tags(number: str, paper: QuotationPaper, ordered: _Ordered) -> Iterator[PartTag]:
    place = 0
    for line, shell in enumerate(paper.shells, start=1):
        for piece in range(1, shell.quantity + 1):
            place += 1
            due = (ordered.due or {}).get(place, {})
            for sent in shell.kept.sent:
                yield PartTag(tag_number(number, line, piece, sent.rule), sent, due.get(sent.rule))


def _ordered(store: Store, actor: Actor, number: str, letter: str, working: Working, now: datetime) -> _Ordered:
    """The order that follows this very revision; another revision's days are not this one's."""
    with store.reading() as db:
        found = orders.of_quotation(db, number, actor.dealer)
    if found is None:
        return _Ordered()
    dates = promising.order_dates(store, actor, found[1], working, now)
    if dates.order.revision.letter != letter:
        return _Ordered()
    due = {
        shell.seat.place: {one.gate.of: one.by for one in shell.due if one.gate.name == "parts"}
        for shell in dates.shells
        if shell.kept is not None
    }
    return _Ordered(found[1], due)
