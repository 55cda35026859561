"""Handing papers out: an issued revision's always the same bytes, a draft's made now and marked so.

Issuing stores the customer's own paper. Any other language or size is drawn from what issuing froze when somebody first
asks for it, stored, and from then on served as it is stored.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DataErased, NotFound
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import Imprint, Quotation, Revision
from app.services.answering import checking
from app.services.customers.erased import erased
from app.services.planning.dating import Working
from app.services.quotations import papering
from app.services.quotations.comparing import changes_of
from app.services.quotations.enquiring import own_enquiry
from app.services.quotations.owned import opened, own_quotation, revision_of
from app.services.quotations.ranging import foreseen
from app.services.quotations.working_out import work_out
from app.services.stock.claiming import with_stock
from app.store import bank, customers, dealers, orders, papers
from app.store import quotations as kept
from app.store.db import Store


def paper(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    language: str,
    size: str,
    now: datetime,
    *,
    working: Working | None = None,
) -> bytes:
    """A PDF. `working`: the firm's working days, by which a draft's paper names dates.

    Raises NotFound, DataErased, BadInput for a language or size that there is none in, and, of a draft, UnknownNames
    where the book in force has no such price list.
    """
    return _handed_out(store, actor, (number, letter), (language, size), papers.QUOTATION, now, working)


def difference_sheet(
    store: Store, actor: Actor, number: str, letter: str, language: str, size: str, now: datetime
) -> bytes:
    """A PDF: the donor car as built, as it stands and as ordered, where they differ; no price. Raises as `paper`."""
    return _handed_out(store, actor, (number, letter), (language, size), papers.DIFFERENCE_SHEET, now)


def where_to_cut(
    store: Store, actor: Actor, number: str, letter: str, language: str, size: str, now: datetime
) -> bytes:
    """A PDF: how each customer's part comes out of the donor car; no price. Raises as `paper`."""
    return _handed_out(store, actor, (number, letter), (language, size), papers.CUT_SHEET, now)


def acceptance_form(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    language: str,
    size: str,
    now: datetime,
    *,
    working: Working | None = None,
) -> bytes:
    """A PDF for the customer to sign: what he orders, at what sum, what differs, what binds. As `paper`."""
    return _handed_out(store, actor, (number, letter), (language, size), papers.ACCEPTANCE_FORM, now, working)


def _handed_out(
    store: Store,
    actor: Actor,
    of: tuple[str, str],
    kind: papering.Kind,
    which: str,
    now: datetime,
    working: Working | None = None,
) -> bytes:
    with store.reading() as db:
        quotation = own_quotation(db, actor, of[0], now)
        enquiry = own_enquiry(db, actor, quotation.enquiry)
        revision = revision_of(quotation, of[1])
        stored = papers.get(db, revision.id, *kind, which)
        refusal = None if stored is not None or not revision.issued else erased_of(db, enquiry, number=of[0])
    if stored is not None:
        return stored
    if refusal is not None:
        raise refusal
    sheetful = _sheetful(store, actor, quotation, enquiry, revision, kind, now)
    if not revision.issued:
        dated = foreseen(store, sheetful.worked, working, now)
        sheetful = replace(sheetful, worked=with_stock(store, dated, of[0], working, now))
    pdf = _drawer(which)(sheetful, *kind)
    return _kept(store, revision, kind, which, pdf) if revision.issued else pdf


def _drawer(which: str) -> Callable[[papering.Sheetful, str, str], bytes]:
    """What draws each paper."""
    draws = {
        papers.QUOTATION: papering.pdf,
        papers.DIFFERENCE_SHEET: papering.difference_pdf,
        papers.CUT_SHEET: papering.where_to_cut,
        papers.ACCEPTANCE_FORM: papering.acceptance_pdf,
    }
    return draws[which]


def sheetful_of(
    store: Store, actor: Actor, number: str, letter: str, kind: papering.Kind, now: datetime
) -> papering.Sheetful:
    """For a paper that isn't kept. Raises as `paper`."""
    quotation, enquiry, revision = opened(store, actor, number, letter, now)
    with store.reading() as db:
        refusal = erased_of(db, enquiry, number) if revision.issued else None
    if refusal is not None:
        raise refusal
    return _sheetful(store, actor, quotation, enquiry, revision, kind, now)


def erased_of(db: Database, enquiry: Enquiry, number: str) -> DataErased | None:
    """Where no order follows, no paper of an erased customer is drawn anew: it would be none that went out."""
    who = None if enquiry.customer.id is None else customers.get(db, enquiry.customer.id, None)
    return None if orders.of_quotation(db, number, None) is not None else erased(who)


def by_code(store: Store, code: str) -> tuple[str, str] | None:
    """(quotation number, revision letter) behind a paper's code, or None. Tell nobody before sign-in."""
    with store.reading() as db:
        return kept.by_code(db, code)


def imprint_of(db: Database, actor: Actor, quotation: Quotation, address: str = "") -> Imprint:
    """As it stands now. `address`: what the paper's QR code says; a draft has none."""
    dealer = None if quotation.dealer is None else dealers.get(db, quotation.dealer)
    account = bank.account(db, None)
    firm = dealers.firm(db) | ({} if account is None else {"account": asdict(account)})
    return Imprint(actor.display_name, firm, "" if dealer is None else dealer.name, address)


def _sheetful(
    store: Store,
    actor: Actor,
    quotation: Quotation,
    enquiry: Enquiry,
    revision: Revision,
    kind: papering.Kind,
    now: datetime,
) -> papering.Sheetful:
    with store.reading() as db:
        imprint = imprint_of(db, actor, quotation) if revision.frozen is None else revision.frozen.imprint
    if imprint is None:
        raise NotFound(what="paper", name=" ".join(kind))
    worked = work_out(store, enquiry, revision, now)
    refuse_unknown_kind(worked.deal.book.languages, *kind)
    made_at = revision.issued_at or now
    changes, valid_until = changes_of(store, quotation, revision, worked), revision.valid_until
    return papering.Sheetful(quotation, revision, worked, imprint, made_at, revision.issued, valid_until, changes)


def refuse_unknown_kind(languages: tuple[str, ...], language: str, size: str) -> None:
    """Raises BadInput for a language or size that there is no paper in."""
    checking.refuse(checking.one_of("language", language, papering.languages(languages)))
    checking.refuse(checking.one_of("size", size, papering.SIZES))


def _kept(store: Store, revision: Revision, kind: papering.Kind, which: str, pdf: bytes) -> bytes:
    """What is stored: of two who ask for the first time at once, one's is kept and both get that."""
    with store.writing() as db:
        stored = papers.get(db, revision.id, *kind, which)
        if stored is None:
            papers.add(db, revision.id, *kind, pdf, which)
        return pdf if stored is None else stored
