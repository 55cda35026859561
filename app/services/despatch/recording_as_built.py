"""The as-built record: drawn up when a shell leaves, kept byte for byte, and handed to anybody who has its code."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256

from sqlite_utils import Database

from app.domain.despatch.as_built import AsBuilt, Conceded, as_built_text
from app.domain.errors import NotFound
from app.domain.floor.shell import Deed
from app.domain.inspection.concession import holding
from app.domain.orders.order import Order
from app.services.answering.pricing import day_of
from app.services.despatch.consigning import old_parts
from app.services.inspection.inspecting import PHASES, Inspection
from app.services.money.sharing import Placed
from app.store import concessions, dealers, despatches, rework, sheet_revisions, welds
from app.store.db import Store

#: Bytes of a code: nobody finds one by trying.
CODE_BYTES = 9


@dataclass(frozen=True, slots=True)
class Record:
    """`text` as it was kept; `sha256` as it was worked out then, `whole`: whether the text still has it."""

    text: bytes
    sha256: str

    @property
    def whole(self) -> bool:
        return sha256(self.text).hexdigest() == self.sha256


def record(store: Store, code: str) -> Record:
    """For anybody. Raises NotFound."""
    with store.reading() as db:
        found = despatches.record(db, code)
    if found is None:
        raise NotFound(what="code", name=code)
    return Record(*found)


def keep_record(db: Database, looked: Inspection, order: Order, one: Placed, now: datetime) -> tuple[str, str]:
    """Drawn up and kept, inside the transaction in which the shell leaves: its code and its SHA-256."""
    text = as_built_text(_as_built(db, looked, order, one, now)).encode()
    code = secrets.token_urlsafe(CODE_BYTES)
    despatches.keep_record(db, one.shell.id, code, text, now)
    return code, sha256(text).hexdigest()


def _as_built(db: Database, looked: Inspection, order: Order, one: Placed, now: datetime) -> AsBuilt:
    frozen, key, book = one.frozen, one.shell.id, looked.found.whole.book
    return AsBuilt(
        serial=one.shell.serial or "",
        firm=str(dealers.firm(db).get("name", "")),
        book=order.revision.book or 0,
        revision=order.revision.letter,
        sheet=max((sheet.revision for sheet in sheet_revisions.of(db, key)), default=0),
        specification={option.id: frozen.settled[option.id] for option in book.options},
        stages=[(d.stage, day_of(book, d.at)) for d in one.shell.deeds if d.deed is Deed.DONE and d.stage],
        despatched=day_of(book, now),
        welds=_welds(db, key),
        inspection=tuple(inspection_lines(looked)),
        parts=old_parts(book, frozen),
        concessions=tuple(conceded(db, key)),
        mended=[(str(w.subject), w.end.day) for w in rework.of_shell(db, key) if w.end and not w.end.withdrawn],
    )


def _welds(db: Database, key: int) -> dict[str, list[date]]:
    days: dict[str, list[date]] = {}
    for weld in welds.of_shell(db, key):
        days.setdefault(weld.zone, []).append(weld.day)
    return {zone: sorted(set(told)) for zone, told in days.items()}


def conceded(db: Database, key: int) -> Iterator[Conceded]:
    """What was passed though it is not as it should be, and stands so."""
    for one in holding(concessions.of_shell(db, key)):
        if one.answer is not None:
            yield Conceded(str(one.subject), one.answer.day, one.measured, one.limit)


def inspection_lines(one: Inspection) -> Iterator[tuple[str, str]]:
    """Each phase with its verdict and day, then every subject with what was read and how that stands, in ids."""
    for said in one.decided:
        yield f"verdict {said.phase.value}", f"{said.verdict.value} {day_of(one.book, said.at).isoformat()}"
    for phase in PHASES:
        for judged in one.looked[phase].judged:
            reading = one.standing.counts.get(judged.subject.id)
            value = "" if reading is None else f"{reading.value}{judged.subject.unit and f' {judged.subject.unit}'} "
            yield judged.subject.id, f"{value}{judged.mark.value}"
