"""Handing out all that is held on one customer, to be sent to him: what is stored as JSON, and every paper as it is."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import datetime
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from app.domain.asking.actor import Actor
from app.services.customers.knowing import own_customer
from app.store import held, history
from app.store.db import Store
from app.store.held import HeldPaper

#: What is in the archive beside the papers.
DATA = "data.json"

ABOUT = (
    "Everything that this order desk holds on one customer: the rows of each table as they are stored (amounts in "
    "whole minor units of the currency beside them, moments in UTC), every paper as it went out, and every photograph. "
    "Copies of the data folder and messages sent by other means are not part of it."
)


def everything_on(store: Store, actor: Actor, number: int, now: datetime) -> bytes:
    """A ZIP of data.json, papers/*.pdf and photographs/*.jpg; that it was handed out is recorded. Raises NotFound."""
    with store.writing() as db:
        kept = own_customer(db, actor, number)
        told = {"about": ABOUT, "customer": kept.id, "made_at": now.isoformat(), "held": held.rows(db, kept.id)}
        files = [*_papers(held.paper_bytes(db, kept.id)), *_photographs(held.photograph_bytes(db, kept.id))]
        history.add(db, "customer", str(kept.id), "customer-disclosed", actor.name, now)
    return _zipped(told, files, now)


def _zipped(told: dict[str, Any], files: list[tuple[str, bytes]], now: datetime) -> bytes:
    into = BytesIO()
    with ZipFile(into, "w", ZIP_DEFLATED) as archive:
        for name, content in ((DATA, json.dumps(told, ensure_ascii=False, indent=2).encode()), *files):
            archive.writestr(_dated(name, now), content)
    return into.getvalue()


def _photographs(found: Iterable[tuple[int, bytes]]) -> Iterator[tuple[str, bytes]]:
    for number, jpeg in found:
        yield f"photographs/{number}.jpg", jpeg


def _papers(papers: Iterable[tuple[HeldPaper, bytes]]) -> Iterator[tuple[str, bytes]]:
    for paper, pdf in papers:
        named = [paper.sort, paper.number, paper.letter, paper.language, paper.size]
        yield f"papers/{'-'.join(part for part in named if part)}.pdf", pdf


def _dated(name: str, now: datetime) -> ZipInfo:
    info = ZipInfo(name, now.timetuple()[:6])
    info.compress_type = ZIP_DEFLATED
    return info
