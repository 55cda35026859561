"""The receipt record of a customer's part as a PDF. Made anew each time: it grows until the part went back."""

from __future__ import annotations

from datetime import datetime

from app.documents.workshop.part_receipt import PartReceipt, Picture, part_receipt_pdf
from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.part import Arrival
from app.services.answering.pricing import day_of
from app.services.parts.taking_in import OrderedPart, own_part
from app.services.people import introducing
from app.services.quotations import handing_out, papering
from app.services.quotations.tagging import PART_TAG, Tag
from app.store import parts as kept
from app.store.db import Store


def receipt(store: Store, actor: Actor, tag: Tag, turn: int, language: str, size: str, now: datetime) -> bytes:
    """Of the part that came as the `turn`th (from 1) under the tag; no price is on it.

    Raises NotFound, BadInput for a language or size that there is none in, DataErased.
    """
    with store.reading() as db:
        part = own_part(store, db, actor, tag, now)
        if not 0 < turn <= len(part.arrivals):
            raise NotFound(what="part", name=f"{tag.number} {turn}")
        arrival = part.arrivals[turn - 1]
        pictures = tuple(Picture(kept.content(db, one.id), one.width, one.height, one.note)
                         for one in arrival.photographs)  # fmt: skip
    return _drawn(store, actor, part, (turn, arrival), pictures, (language, size), now)


def _drawn(
    store: Store, actor: Actor, part: OrderedPart, which: tuple[int, Arrival], pictures: tuple[Picture, ...],
    kind: papering.Kind, now: datetime,
) -> bytes:  # fmt: skip
    order = part.order
    sheetful = handing_out.sheetful_of(store, actor, order.quotation, order.revision.letter, kind, now)
    paper = papering.paper_of(sheetful, *kind)
    content = PartReceipt(
        quotation=paper,
        order=order.number,
        shell="–" if part.shell is None else part.shell.serial or str(part.seat.place),
        tag=part.tag.number,
        rule=part.tag.rule,
        turn=which[0],
        arrival=which[1],
        names=introducing.display_names(store),
        pictures=pictures,
        printed=day_of(paper.book, now),
        cautions=papering.cautions_on(sheetful, PART_TAG),
    )
    with papering.PRESS:
        return part_receipt_pdf(content)
