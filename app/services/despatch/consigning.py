"""The papers of a shell that leaves: what they say, as it stands before and as it was frozen with the despatch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime

from sqlite_utils import Database

from app.documents import contents
from app.documents.despatch.shell_papers import shell_paper_pdf
from app.domain.asking.actor import Actor
from app.domain.despatch.consignment import Chosen, Conceded, Consignment, Paper
from app.domain.errors import NotFound, NotPacked
from app.domain.inspection.concession import holding
from app.domain.orders.order import Order
from app.domain.quotations.quotation import FrozenLine
from app.services.answering import checking
from app.services.answering.pricing import day_of
from app.services.despatch.leaving import Leaving, leaving
from app.services.floor.naming_subjects import words_of
from app.services.money.balancing import shell_name
from app.services.money.making_out import buyer_of, seller_of
from app.services.money.sharing import Placed, deal_of
from app.services.quotations.papering import PRESS, SIZES, kind_for, kinds, standing_cautions
from app.store import concessions, despatches
from app.store.db import Store
from app.store.frozen import frozen_text, thawed
from rules.model import Book, Role
from rules.schedule.capacity import slot_stage_of

#: Papers of the book whose standing cautions are printed.
_CAUTIONED = ("delivery-note", "evidence-letter", "conformity-declaration")


def consignment(store: Store, db: Database, actor: Actor, found: Leaving, now: datetime) -> Consignment:
    """What its papers would say now; without a number: that comes with the despatch. Raises NotPacked, FirmUntold."""
    order, book, one, packing = found.order, found.book, found.placed, found.standing.packing
    frozen = one.frozen
    if packing is None:
        raise NotPacked(serial=one.shell.serial or "–")
    place, customer = order.place, order.frozen.customer
    language, size = kind_for(book, customer, place.country)
    chosen = tuple(_chosen(book, frozen))
    return Consignment(
        number="",
        order=order.number,
        quotation=order.quotation,
        letter=order.revision.letter,
        dated=day_of(book, now),
        serial=one.shell.serial or "",
        seller=seller_of(db, book),
        buyer=buyer_of(db, order),
        name=shell_name(book, frozen),
        specification=chosen,
        finish=tuple(row for row, option in zip(chosen, book.options, strict=True) if _dressing(book, option.id)),
        packing=packing,
        trade=despatches.trade(db),
        goes_to=place.country,
        abroad=found.standing.abroad,
        untaxed=found.standing.untaxed,
        invoice=found.standing.invoice or "",
        currency=order.frozen.currency,
        value=frozen.price.shell.net or 0,
        author=actor.display_name,
        signed="",
        language=language,
        size=size,
        locale=customer.country,
        imperial=customer.units == "imperial",
        donor=order.frozen.donor.number_text,
        old_parts=tuple(book.rule(rule).part for rule in old_parts(book, frozen)),
        cautions={paper: _standing(book, order, frozen, paper) for paper in _CAUTIONED},
        said={one.id: one.text for one in book.wordings},
        conceded=tuple(_conceded(db, book, one)),
        overcoat_by=found.standing.overcoat_by,
        acknowledged=found.standing.acknowledged,
    )


def old_parts(book: Book, frozen: FrozenLine) -> tuple[str, ...]:
    """Ids of the part rules whose part is welded in: those that must have passed before the stage with the slots.

    A panel that is hung later can be taken off again: the shell itself is new all the same.
    """
    slot = slot_stage_of(book)
    return tuple(rule for rule in frozen.depends.parts if (book.rule(rule).needed_before or slot) == slot)


def paper(
    store: Store, actor: Actor, key: int, wanted: str, kind: tuple[str, str], now: datetime, *, url: str = ""
) -> bytes:
    """A paper of that shell in (language, size): kept once it has left, made anew before. `url`: of the desk.

    Raises NotFound, BadInput, NotPacked, FirmUntold.
    """
    checking.refuse((*checking.one_of("size", kind[1], SIZES),))
    with store.reading() as db:
        found = leaving(store, db, actor, key, now)
        told = _told(store, db, actor, found, now)
        which = _which(told, wanted)
        checking.refuse(checking.one_of("language", kind[0], tuple(language for language, _ in kinds(found.book))))
        stored = despatches.paper(db, told.number, which.value, kind)
    if stored is not None:
        return stored
    made = _pdf(told, which, kind, url)
    return made if told.draft else _kept(store, told, which, kind, made)


def frozen_consignment(told: Consignment) -> str:
    """As text, to be kept with the despatch."""
    return frozen_text(told)


def _told(store: Store, db: Database, actor: Actor, found: Leaving, now: datetime) -> Consignment:
    gone = despatches.of_shell(db, found.placed.shell.id)
    return consignment(store, db, actor, found, now) if gone is None else thawed(Consignment, gone[1])


def _which(told: Consignment, wanted: str) -> Paper:
    which = next((one for one in told.papers() if one.value == wanted), None)
    if which is None:
        raise NotFound(what="paper", name=wanted)
    return which


def _pdf(told: Consignment, which: Paper, kind: tuple[str, str], url: str) -> bytes:
    address = f"{url}/r/{told.record}" if url and told.record else ""
    with PRESS:
        return shell_paper_pdf(told, which, kind[0], contents.Sheet(kind[1]), address)


def _kept(store: Store, told: Consignment, which: Paper, kind: tuple[str, str], made: bytes) -> bytes:
    """Of two who ask for the first time at once, one's is kept and both get that."""
    with store.writing() as db:
        stored = despatches.paper(db, told.number, which.value, kind)
        if stored is None:
            despatches.add_paper(db, told.number, which.value, kind, made)
        return made if stored is None else stored


def _chosen(book: Book, frozen: FrozenLine) -> Iterator[Chosen]:
    for option in book.options:
        choice = option.choice(frozen.settled[option.id])
        yield Chosen(option.label, choice.label, frozen.standing[option.id].value)


def _dressing(book: Book, option: str) -> bool:
    """What is no part of the structure, and not how it travels."""
    return not book.option(option).structural and option != book.roles.get(Role.DELIVERY)


def _standing(book: Book, order: Order, frozen: FrozenLine, paper: str) -> tuple[Mapping[str, str], ...]:
    ids = standing_cautions(deal_of(book, order), frozen.settled, paper)
    return tuple(caution.text for caution in book.cautions if caution.id in ids)


def _conceded(db: Database, book: Book, one: Placed) -> Iterator[Conceded]:
    for asked in holding(concessions.of_shell(db, one.shell.id)):
        if asked.answer is not None:
            yield Conceded(words_of(book, asked.subject), asked.answer.day)
