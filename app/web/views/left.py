"""A shell on its way out, as plain data. Shaping only; what it costs passes the schema's own gate."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from app.domain.asking.people import Role
from app.domain.despatch.consignment import Paper
from app.domain.despatch.despatch import Despatched, Keeps, Packing
from app.domain.despatch.packing_up import Proposal
from app.domain.errors import Fault
from app.domain.inspection.concession import Concession
from app.domain.quotations.quotation import PaperKept
from app.services.answering.pricing import day_of
from app.services.despatch.leaving import Leaving
from app.services.quotations.papering import kind_for
from app.web import here
from app.web.addressed import fault_said
from app.web.problems import spoken
from app.web.views.ordered import shell_name
from app.web.views.subjects import told_subject
from app.web.views.things import papers_view, slots
from app.wording import say


def leaving_view(one: Leaving) -> dict[str, Any]:
    """All that is shown of it on its way out."""
    placed, stands, gone = one.placed, one.standing, one.despatched
    return {
        **slots(stands, "currency", "invoice", "open", "cleared", "on_credit", "abroad", "untaxed", "overcoat_by"),
        "id": placed.shell.id,
        "order": one.order.number,
        "customer": one.order.frozen.customer.name,
        "place": placed.place,
        "of": len(one.order.shells),
        "name": shell_name(one.book, placed.frozen.settled),
        "serial": placed.shell.serial,
        "state": stands.state.value,
        "due": one.due,
        "keeps": [{"what": fault.path, "says": fault_said(_worded(fault, one))} for fault in one.keeps],
        "conceded": [_conceded(said, one) for said in one.conceded],
        "packing": None if stands.packing is None else packing_view(stands.packing),
        "despatched": None if gone is None else _despatched(gone),
        "export_evidence": _evidence(one),
        "papers": [_paper(one, paper, stored) for paper, stored in one.papers.items()],
        "record": one.record,
    }


def _worded(fault: Fault, one: Leaving) -> Fault:
    """What a concession, rework or a reading is about, in the reader's words."""
    if fault.path not in (Keeps.CONCESSION.value, Keeps.REWORK.value, Keeps.OUT.value):
        return fault
    about = "; ".join(told_subject(one.book, text) for text in fault.facts["of"].split(", "))
    return replace(fault, facts={"of": about})


def _conceded(said: Concession, one: Leaving) -> dict[str, Any]:
    day = None if said.answer is None else said.answer.day
    return {"id": said.id, "says": told_subject(one.book, str(said.subject)), "day": day}


def _paper(one: Leaving, paper: Paper, stored: tuple[PaperKept, ...]) -> dict[str, Any]:
    place, customer = one.order.place, one.order.frozen.customer
    at = f"/api/shells/{one.placed.shell.id}/leaving-papers/{paper.value}"
    had = {(kept.language, kept.size) for kept in stored}
    return {"paper": paper.value, "papers": papers_view(one.book, at, had, kind_for(one.book, customer, place.country))}


def packing_view(packing: Packing) -> dict[str, Any]:
    plain = ("net_mass", "gross_mass", "loose", "returned", "carrier", "consignee", "timber_mark", "evidence")
    packages = [slots(package) for package in packing.packages]
    told = {"packages": packages, "term": slots(packing.term)}
    return {**slots(packing, *plain), **told}


def _evidence(one: Leaving) -> dict[str, Any] | None:
    """The office's own matter, with how it stands by the firm's day."""
    told = one.evidence
    if told is None or here.me().role not in (Role.CLERK, Role.MANAGER):
        return None
    stands, language = told.stands(day_of(one.book, here.now())).value, here.language()
    day = None if told.held is None else told.held.day
    days = spoken({"due": told.due, "since": told.since, "day": day}, language)
    says = say(f"export-evidence.{stands}", language, **days)
    said = [{**slots(each, "what", "day", "at"), "by_name": here.called(each.by)} for each in told.said]
    return {"due": told.due, "stands": stands, "says": says, "said": said}


def proposal_view(one: Proposal) -> dict[str, Any]:
    """A line that a packing could list."""
    enums = {"into": one.into.value, "origin": one.origin.value}
    return {**slots(one), **enums, "sure": one.sure}


def _despatched(gone: Despatched) -> dict[str, Any]:
    return {**slots(gone, "number", "at"), "by_name": here.called(gone.by), "signed_name": here.called(gone.signed)}
