"""A quotation as plain data: a draft looked at against what is in force, an issued revision as it was frozen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.domain.finding import Hit
from app.domain.happenings import Deed, deeds
from app.domain.quotations.quotation import EarlierYes, FrozenLine, Outcome, Quotation, QuotationLine, Revision
from app.services.answering.specifying import Answered
from app.services.books import publishing
from app.services.planning.readying import ready_of
from app.services.quotations import comparing, quoting
from app.services.quotations.listing import ListedQuotation
from app.services.quotations.papering import kind_for
from app.services.quotations.quoting import PricedRevision
from app.services.quotations.working_out import standing_of_options
from app.web import here
from app.web.problems import told_facts
from app.web.views.changed import changes_view
from app.web.views.things import depends_view, papers_view, price_view, slots, total_view, totals_view
from app.wording import knows, say
from rules.answer import State
from rules.model import Book
from rules.specification import Donor


def quotation_view(quotation: Quotation) -> dict[str, Any]:
    """With every revision and its history."""
    return {
        "number": quotation.number,
        "enquiry": quotation.enquiry,
        "state": quotation.standing.value,
        "dealer": quotation.dealer,
        "revisions": [revision_view(quotation, revision) for revision in quotation.revisions],
        "history": [deed_view(deed) for deed in deeds(quotation.history)],
    }


def revision_view(quotation: Quotation, revision: Revision) -> dict[str, Any]:
    """A draft with today's answers, an issued revision with its own."""
    shown = _issued(quotation, revision) if revision.issued else _draft(quotation, revision)
    return {**shown, "earlier_yes": _earlier_yes(quotation, revision)}


def row_view(listed: ListedQuotation, found_by: Sequence[Hit] = ()) -> dict[str, Any]:
    """A row of a list; `found_by`: what of it holds the words that were sought."""
    row = listed.row
    return {
        **slots(row),
        "state": row.standing.value,
        "earlier_yes": yes_view(row.earlier_yes),
        "total": total_view(listed.totals, listed.currency),
        "waits_for": listed.waits_for,
        "parts": listed.parts,
        "approvals": listed.approvals,
        "found_by": found_by,
    }


def yes_view(yes: EarlierYes | None, *, stands: bool = False) -> dict[str, Any] | None:
    """A yes to an earlier revision; `stands`: nothing has taken its place yet."""
    return None if yes is None else {"letter": yes.letter, "at": yes.at, "by": yes.by, "stands": stands}


def _earlier_yes(quotation: Quotation, revision: Revision) -> dict[str, Any] | None:
    yes, standing = quotation.yes_before(revision.letter), quotation.standing_yes
    return yes_view(None if yes is None else yes.yes, stands=yes is not None and yes is standing)


def _draft(quotation: Quotation, revision: Revision) -> dict[str, Any]:
    number = quotation.number
    priced = quoting.price_revision(here.store(), here.me(), number, revision.letter, here.now())
    book = publishing.book(here.store(), priced.book)
    lines = [
        _line(line, _answered_summary(line, answered))
        for line, answered in zip(revision.lines, priced.answers, strict=True)
    ]
    return {
        **_head(number, revision, book),
        **_numbers(priced),
        "lines": lines,
        "totals": _totals(priced, _currency(book, revision)),
        "changes": changes_view(priced.changes, book),
    }


def _issued(quotation: Quotation, revision: Revision) -> dict[str, Any]:
    assert revision.book is not None
    assert revision.frozen is not None
    book, donor = publishing.book(here.store(), revision.book), revision.frozen.donor.facts()
    lines = [_line(line, _frozen_summary(book, line.frozen, donor)) for line in revision.lines]
    totals = totals_view(revision.totals, revision.frozen.currency, here.language())
    changes = comparing.changes_of_issued(here.store(), quotation, revision)
    return {
        **_head(quotation.number, revision, book),
        "tool_state": revision.tool_state,
        "lines": lines,
        "totals": totals,
        "changes": changes_view(changes, book),
    }


def _head(number: str, revision: Revision, book: Book) -> dict[str, Any]:
    labels = {extra.id: extra.label for extra in book.extras}
    return {
        "quotation": number,
        "letter": revision.letter,
        "state": revision.standing.value,
        "version": revision.version,
        "book": book.number,
        "created_at": revision.created_at,
        "created_by": revision.created_by,
        "issued_at": revision.issued_at,
        "issued_by": revision.issued_by,
        "issued_by_name": _name(revision.issued_by),
        "valid_until": revision.valid_until,
        "price_list": revision.price_list,
        "currency": _currency(book, revision),
        "delivery_place": revision.delivery_place,
        "note": revision.note,
        "extras": [
            {"extra": sold.extra, "label": labels.get(sold.extra, {}), "quantity": sold.quantity}
            for sold in revision.extras
        ],
        "papers": _papers(number, revision, book),
        "outcome": _outcome(revision.outcome),
    }


def _name(name: str | None) -> str | None:
    return None if name is None else here.called(name)


def _numbers(priced: PricedRevision) -> dict[str, Any]:
    return {"book": priced.book, "tool_state": priced.tool_state}


def _totals(priced: PricedRevision, currency: str) -> dict[str, Any] | None:
    return totals_view(priced.totals, currency, here.language())


def _currency(book: Book, revision: Revision) -> str:
    return next((listed.currency for listed in book.lists if listed.id == revision.price_list), "")


def _line(line: QuotationLine, summary: dict[str, Any] | None) -> dict[str, Any]:
    answers = line.specification.answers
    specification = {option: {"choice": t.choice, "origin": t.origin.value} for option, t in answers.items()}
    told = {"id": line.id, "quantity": line.quantity, "specification": specification, "answer": summary}
    stock = None if line.frozen is None else line.frozen.stock
    return {
        **told,
        "stock": None if stock is None else slots(stock, "shell", "name", "until", "finished", "second", "why"),
    }


def _answered_summary(line: QuotationLine, answered: Answered | None) -> dict[str, Any] | None:
    if answered is None:
        return None
    answer = answered.answer
    return {
        "verdict": answer.verdict.value,
        "verdicts": [verdict.value for verdict in answer.verdicts],
        "complete": answer.complete,
        "open_questions": answer.open_questions,
        "causes": answer.causes,
        "depends": depends_view(answer.depends),
        "settled": answer.settled,
        "standing": _standing_view(standing_of_options(answer, line.specification)),
        "ready": answered.ready,
        "price": price_view(answered.book, answered.price) if answered.price else None,
        "net": answered.price.net if answered.price else None,
    }


def _standing_view(standing: Mapping[str, State]) -> dict[str, str]:
    return {option: state.value for option, state in standing.items()}


def _frozen_summary(book: Book, frozen: FrozenLine | None, donor: Donor) -> dict[str, Any] | None:
    if frozen is None:
        return None
    return {
        "verdict": frozen.verdicts[0].value,
        "verdicts": [verdict.value for verdict in frozen.verdicts],
        "complete": True,
        "open_questions": [],
        "causes": [],
        "depends": depends_view(frozen.depends),
        "settled": frozen.settled,
        "standing": _standing_view(frozen.standing),
        "ready": ready_of(book, frozen.settled, donor, frozen.depends),
        "price": price_view(book, frozen.price.shell),
        "net": frozen.price.shell.net,
    }


def _papers(number: str, revision: Revision, book: Book) -> list[dict[str, Any]]:
    at = f"/api/quotations/{number}/revisions/{revision.letter}/paper"
    stored = {(paper.language, paper.size) for paper in revision.papers}
    frozen = revision.frozen
    own = None if frozen is None else kind_for(book, frozen.customer, revision.delivery_place.country)
    return papers_view(book, at, stored, own)


def _outcome(outcome: Outcome | None) -> dict[str, Any] | None:
    if outcome is None:
        return None
    reply = outcome.reply
    return {
        "state": outcome.standing.value,
        "recorded_at": outcome.at,
        "recorded_by": outcome.by,
        "said_at": reply and reply.at,
        "said_by": reply and reply.by,
        "reason": reply and reply.reason and reply.reason.value,
        "note": reply and reply.note,
    }


def deed_view(deed: Deed) -> dict[str, Any]:
    happening, times = deed.last, deed.times
    closer = f"history.{happening.what}-{'often' if times > 1 else happening.facts.get('reason', '')}"
    key = closer if knows(closer) else f"history.{happening.what}"
    facts = told_facts(happening.facts, here.language())
    what = say(key, here.language(), times=times, **facts) if knows(key) else happening.what
    name = here.called(happening.by)
    return {"at": happening.at, "by": happening.by, "by_name": name, "kind": happening.what, "what": what}
