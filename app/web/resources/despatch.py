"""Shells that leave the house: packed, kept back for reasons that are told, despatched under a personal code."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.despatch.consignment import Paper
from app.domain.despatch.despatch import Credit, Packing, Trade
from app.services.despatch import consigning, despatching, holding_evidence, leaving, proposing, recording_as_built
from app.services.money import dealer_credit
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.files import PDF, carried_off, pdf
from app.web.guard import does, for_anybody, refuse_hidden_prices
from app.web.resources.floor import SHELL
from app.web.resources.orders import ONE
from app.web.schemas.despatch import (
    DealerCreditIn,
    DealerCreditsOut,
    DespatchIn,
    EvidenceWithdrawnIn,
    ExportEvidenceIn,
    ExportTermsIn,
    ExportTermsOut,
    LeavingOut,
    LeavingShellsOut,
    PackingIn,
    PackingProposalsOut,
    RecordOut,
)
from app.web.schemas.quotations import PaperIn
from app.web.views.left import leaving_view, proposal_view
from app.web.views.things import slots

DEALER = "/dealers/<string(maxlength=40):dealer>/credit"

blp = resource("despatch", "Shells on their way out: what keeps each, how it is packed, what goes with it.")


@blp.route("/leaving", methods=["GET"])
@does(Action.READ, Sort.DESPATCH)
@blp.response(200, LeavingShellsOut)
def shells_leaving() -> Any:
    """Every shell that is ready, with all that keeps it in the house, and those that have left."""
    found = leaving.going(here.store(), here.me(), here.now())
    return {"shells": [leaving_view(one) for one in found]}


@blp.route(f"{ONE}/leaving", methods=["GET"])
@does(Action.READ, Sort.DESPATCH)
@blp.response(200, LeavingShellsOut)
def shells_of_an_order_leaving(number: str) -> Any:
    """Every shell of one order, on its way out."""
    found = leaving.of_order(here.store(), here.me(), number, here.now())
    return {"shells": [leaving_view(one) for one in found]}


@blp.route(f"{SHELL}/leaving", methods=["GET"])
@does(Action.READ, Sort.DESPATCH)
@blp.response(200, LeavingOut)
def one_shell_leaving(shell: int) -> Any:
    """One shell: its balance, what keeps it, how it is packed, its papers."""
    return _shown(shell)


@blp.route(f"{SHELL}/packing-proposals", methods=["GET"])
@does(Action.READ, Sort.DESPATCH)
@blp.response(200, PackingProposalsOut)
def packing_proposals(shell: int) -> Any:
    """What could go with it unfitted or back to the customer, each line with where it comes from."""
    found = proposing.proposals(here.store(), here.me(), shell, here.now())
    return {"proposals": [proposal_view(one) for one in found]}


@blp.route(f"{SHELL}/packing", methods=["POST"])
@does(Action.CREATE, Sort.DESPATCH)
@creates
@blp.arguments(PackingIn)
@blp.response(201, LeavingOut)
def pack(packing: Packing, shell: int) -> Any:
    """Write down how it is packed and who carries it; the last word before it leaves counts."""
    despatching.pack(here.store(), here.me(), shell, packing, here.now(), once=once())
    return _shown(shell)


@blp.route(f"{SHELL}/despatch", methods=["POST"])
@does(Action.DESPATCH, Sort.SHELL)
@creates
@blp.arguments(DespatchIn)
@blp.response(201, LeavingOut)
def despatch(body: dict[str, str], shell: int) -> Any:
    """Despatch it, signed with a personal code, or be told all that keeps it in the house."""
    signature = here.signature(body["by"], body["code"])
    despatching.despatch(here.store(), here.me(), shell, signature, here.now(), once=once())
    return _shown(shell)


@blp.route(f"{SHELL}/export-evidence", methods=["POST"])
@does(Action.CREATE, Sort.EXPORT_EVIDENCE)
@creates
@blp.arguments(ExportEvidenceIn)
@blp.response(201, LeavingOut)
def hold_export_evidence(body: dict[str, Any], shell: int) -> Any:
    """Record what shows that a shell which left as an export left the country; the last word counts."""
    holding_evidence.hold(here.store(), here.me(), shell, body["what"], body["day"], here.now(), once=once())
    return _shown(shell)


@blp.route(f"{SHELL}/export-evidence/withdrawal", methods=["POST"])
@does(Action.CREATE, Sort.EXPORT_EVIDENCE)
@creates
@blp.arguments(EvidenceWithdrawnIn)
@blp.response(201, LeavingOut)
def take_back_export_evidence(body: dict[str, str], shell: int) -> Any:
    """Say that what was recorded is no evidence after all: it is awaited again."""
    holding_evidence.take_back(here.store(), here.me(), shell, body["why"], here.now(), once=once())
    return _shown(shell)


@blp.route(DEALER, methods=["GET"])
@does(Action.READ, Sort.DEALER_CREDIT)
@blp.response(200, DealerCreditsOut)
def dealers_credit(dealer: str) -> Any:
    """What a dealer may owe for shells that have left, and everything that was ever said of it."""
    return _credits(dealer)


@blp.route(DEALER, methods=["POST"])
@does(Action.CREATE, Sort.DEALER_CREDIT)
@creates
@blp.arguments(DealerCreditIn)
@blp.response(201, DealerCreditsOut)
def give_credit(body: dict[str, Any], dealer: str) -> Any:
    """Set what a dealer may owe, from a day on, with the reason; 0 ends it."""
    told = (body["limit"], body["currency"], body["day"], body["why"])
    dealer_credit.give(here.store(), here.me(), dealer, *told, here.now(), once=once())
    return _credits(dealer)


@blp.route("/export-terms", methods=["GET"])
@does(Action.READ, Sort.EXPORT_TERMS)
@blp.response(200, ExportTermsOut)
def export_terms() -> Any:
    """What export papers say of a shell, and within how many days damage must be told."""
    return slots(despatching.trade(here.store()))


@blp.route("/export-terms", methods=["PUT"])
@does(Action.CHANGE, Sort.EXPORT_TERMS)
@blp.arguments(ExportTermsIn)
@blp.response(200, ExportTermsOut)
def set_export_terms(told: Trade) -> Any:
    """From now on papers say so; those that were handed out stay as they were."""
    despatching.set_trade(here.store(), here.me(), told, here.now())
    return slots(despatching.trade(here.store()))


@blp.route(f"{SHELL}/leaving-papers/<string(maxlength=40):paper>", methods=["GET"])
@does(Action.READ, Sort.DESPATCH)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def leaving_paper(query: dict[str, str], shell: int, paper: str) -> Any:
    """A paper that goes with the shell: a draft before it has left, afterwards always the same bytes."""
    if paper == Paper.EXPORT_DATA.value:
        refuse_hidden_prices()
    kind = (query["language"], query["size"])
    url = here.parts().config.url
    content = consigning.paper(here.store(), here.me(), shell, paper, kind, here.now(), url=url)
    return pdf(content, paper, str(shell), *kind)


@blp.route("/as-built/<string(maxlength=80):code>", methods=["GET"])
@for_anybody
@blp.response(200, RecordOut)
def as_built(code: str) -> Any:
    """The as-built record with this code, for anybody: it names no person and no price."""
    found = recording_as_built.record(here.store(), code)
    return {"text": found.text.decode(), "sha256": found.sha256, "whole": found.whole}


@blp.route("/as-built/<string(maxlength=80):code>/text", methods=["GET"])
@for_anybody
@blp.response(200, {"type": "string"}, content_type="text/plain")
def as_built_text(code: str) -> Any:
    """The very bytes, to be kept as a file and checked by hand."""
    found = recording_as_built.record(here.store(), code)
    return carried_off(found.text, "text/plain; charset=utf-8", f"as-built-{code}.txt")


def _shown(shell: int) -> Any:
    return leaving_view(leaving.of_shell(here.store(), here.me(), shell, here.now()))


def _credits(dealer: str) -> dict[str, Any]:
    told = dealer_credit.credits_of(here.store(), dealer)
    return {"dealer": dealer, "credits": [_credit(one) for one in told]}


def _credit(one: Credit) -> dict[str, Any]:
    return {**slots(one, "limit", "currency", "day", "why", "at"), "by_name": here.called(one.by)}
