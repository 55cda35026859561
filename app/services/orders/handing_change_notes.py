"""The paper of a change note: once it can be signed always the same bytes; before that drawn anew, a draft."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from app.documents.orders.change_note import ChangeNotePaper, Word, change_note_pdf
from app.domain.asking.actor import Actor
from app.domain.orders.change_note import ChangeNote, Said, Standing
from app.services.orders import change_notes
from app.services.orders.changing import shell_at
from app.services.people import introducing
from app.services.quotations import handing_out, papering
from app.store import change_notes as kept
from app.store.db import Store
from rules.model import ORDERED

#: On which of the firm's papers a standing caution of the book is printed.
CHANGE_NOTE = "change-note"


def paper(store: Store, actor: Actor, number: str, language: str, size: str, now: datetime) -> bytes:
    """A PDF. Raises NotFound, DataErased, BadInput for a language or size that there is none in."""
    found = change_notes.own_note(store, actor, number, now)
    with store.reading() as db:
        stored = kept.paper(db, found.id, language, size)
    if stored is not None:
        return stored
    pdf = _drawn(store, actor, found, (language, size), now)
    return pdf if found.standing is Standing.WAITS_FOR_APPROVAL else _kept(store, found, language, size, pdf)


def _drawn(store: Store, actor: Actor, found: ChangeNote, kind: papering.Kind, now: datetime) -> bytes:
    at = shell_at(store, actor, found.shell, now)
    order, content = at.whole.order, found.content
    sheetful = handing_out.sheetful_of(store, actor, order.quotation, order.revision.letter, kind, now)
    draft = found.standing is Standing.WAITS_FOR_APPROVAL
    quotation = replace(papering.paper_of(sheetful, *kind), dated=content.dated, address="", issued=not draft)
    cautions = papering.standing_cautions(sheetful.worked.deal, content.frozen.settled, CHANGE_NOTE)
    come = content.come[-1]
    told = ChangeNotePaper(
        quotation=quotation,
        number=found.number,
        order=order.number,
        shell=at.gated.seat.place,
        of=len(order.shells),
        serial=at.shell.serial or "",
        stage="" if come == ORDERED else come,
        content=content,
        cautions=cautions,
        approved=_word(store, found, Said.APPROVED),
    )
    with papering.PRESS:
        return change_note_pdf(told)


def _word(store: Store, found: ChangeNote, said: Said) -> Word | None:
    act = next((one for one in found.acts if one.said is said), None)
    if act is None:
        return None
    names = introducing.display_names(store)
    return Word(names.get(act.by, act.by), act.day, act.why)


def _kept(store: Store, found: ChangeNote, language: str, size: str, pdf: bytes) -> bytes:
    """Of two who ask for the first time at once, one's is kept and both get that."""
    with store.writing() as db:
        stored = kept.paper(db, found.id, language, size)
        if stored is None:
            kept.add_paper(db, found.id, language, size, pdf)
        return pdf if stored is None else stored
