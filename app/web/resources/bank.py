"""Bank details: the firm's, a customer's for refunds; a change takes a second person."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.money.bank import Account, Confirmation, Proposal, in_force, waiting
from app.services.money import banking
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.customers import ONE as CUSTOMER
from app.web.schemas.bank import BankAnswerIn, BankDetailsOut, BankProposalIn, BankWaitingOut
from app.web.views.things import slots

blp = resource("bank-details", "Where we are paid, and where customers are paid back; one proposes, another agrees.")


@blp.route("/bank-details", methods=["GET"])
@does(Action.READ, Sort.BANK_DETAILS)
@blp.response(200, BankDetailsOut)
def the_firm_s() -> Any:
    """The firm's own, as they are printed on its papers, with every change that was ever proposed."""
    return _shown(None)


@blp.route("/bank-details", methods=["POST"])
@does(Action.CREATE, Sort.BANK_DETAILS)
@creates
@blp.arguments(BankProposalIn)
@blp.response(201, BankDetailsOut)
def propose_the_firm_s(told: tuple[Account, Confirmation]) -> Any:
    """Propose a change. It holds nothing until another manager agrees."""
    banking.propose(here.store(), here.me(), None, *told, here.now(), once=once())
    return _shown(None)


@blp.route("/bank-details/waiting", methods=["GET"])
@does(Action.ANSWER, Sort.BANK_DETAILS)
@blp.response(200, BankWaitingOut)
def waiting_for_a_second() -> Any:
    """Every change that waits for a second person."""
    found = banking.waiting_for_a_second(here.store())
    return {"waiting": [{**_proposal(one.proposal), "name": one.name} for one in found]}


@blp.route(f"/bank-details/<{KEY}:proposal>/answer", methods=["POST"])
@does(Action.ANSWER, Sort.BANK_DETAILS)
@creates
@blp.arguments(BankAnswerIn)
@blp.response(201, BankDetailsOut)
def answer(body: dict[str, Any], proposal: int) -> Any:
    """Agree to it, as another than the one who proposed it, or turn it down."""
    customer = banking.answer(here.store(), here.me(), proposal, body["agreed"], body["why"], here.now(), once=once())
    return _shown(customer)


@blp.route(f"{CUSTOMER}/bank-details", methods=["GET"])
@does(Action.READ, Sort.BANK_DETAILS)
@blp.response(200, BankDetailsOut)
def a_customer_s(customer_id: int) -> Any:
    """Where he is paid back, with every change that was ever proposed."""
    return _shown(customer_id)


@blp.route(f"{CUSTOMER}/bank-details", methods=["POST"])
@does(Action.CREATE, Sort.BANK_DETAILS)
@creates
@blp.arguments(BankProposalIn)
@blp.response(201, BankDetailsOut)
def propose_a_customer_s(told: tuple[Account, Confirmation], customer_id: int) -> Any:
    """Propose where he is to be paid back. It holds nothing until another manager agrees."""
    banking.propose(here.store(), here.me(), customer_id, *told, here.now(), once=once())
    return _shown(customer_id)


def _shown(customer: int | None) -> dict[str, Any]:
    found = banking.proposals(here.store(), here.me(), customer)
    holds, waits = in_force(found), waiting(found)
    return {
        "customer": customer,
        "holds": holds and _proposal(holds),
        "waits": waits and _proposal(waits),
        "proposals": [_proposal(one) for one in reversed(found)],
    }


def _proposal(one: Proposal) -> dict[str, Any]:
    answered = one.answer and {**slots(one.answer), "by_name": here.called(one.answer.by)}
    said = {**slots(one.confirmation), "how": one.confirmation.how.value}
    who = {"by_name": here.called(one.by), "mine": one.by == here.me().name}
    plain = {"id": one.id, "customer": one.customer, "name": "", "at": one.at}
    return {**plain, **slots(one.account), **said, **who, "answer": answered}
