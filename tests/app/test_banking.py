"""Bank details: one proposes, another agrees, a message changes nothing; what holds is printed, what went out stays."""

from __future__ import annotations

import sqlite3
from dataclasses import replace

import pytest

from app.domain.asking.people import Person, Role
from app.domain.errors import BadInput, NotFound, ProposalAnswered, ProposalStands, SecondPersonNeeded
from app.domain.money.bank import Account, Answer, Confirmation, How, in_force, waiting
from app.services.customers import erasing
from app.services.money import accounts, balancing, banking, refunding
from app.store import bank, held
from tests.app.desk import CLERK, MANAGER, NOW, Desk
from tests.app.test_billing import deposited, document, ordered, paper, xml
from tests.documents.reading import whole
from tests.support.standards import rules_of_en_16931, schema_faults

SECOND = Person("maren", "Maren Tolley", Role.MANAGER)

#: IBANs as they stand for example in ISO 13616's registry (from memory); their check digits hold by python-stdnum.
GB, DE = "GB82 WEST 1234 5698 7654 32", "DE89 3704 0044 0532 0130 00"
OURS = Account("Ravensmoor Body Company", GB, "", "Moorland Bank")
CALL = Confirmation(How.TELEPHONE, "Ines Calder of the bank", NOW.date(), "+44 1632 960 300")


def agreed(desk: Desk, customer: int | None, account: Account) -> None:
    banking.propose(desk.store, MANAGER, customer, account, CALL, NOW)
    (waits,) = [one.proposal for one in banking.waiting_for_a_second(desk.store)]
    banking.answer(desk.store, SECOND, waits.id, True, "", NOW)


def held_now(desk: Desk, customer: int | None = None) -> Account | None:
    with desk.store.reading() as db:
        return bank.account(db, customer)


def test_case_24_a_change_holds_only_once_a_second_manager_has_agreed(desk: Desk) -> None:
    banking.propose(desk.store, MANAGER, None, OURS, CALL, NOW)
    (proposal,) = banking.proposals(desk.store, CLERK, None)
    assert (waiting((proposal,)), in_force((proposal,)), held_now(desk)) == (proposal, None, None)
    with pytest.raises(SecondPersonNeeded):
        banking.answer(desk.store, MANAGER, proposal.id, True, "", NOW)
    assert held_now(desk) is None
    banking.answer(desk.store, SECOND, proposal.id, True, "", NOW)
    assert held_now(desk) == OURS
    (after,) = banking.proposals(desk.store, CLERK, None)
    assert after.answer == Answer(True, "", NOW, "maren")
    assert after.confirmation == CALL


def test_the_database_itself_takes_no_yes_from_who_proposed_it(desk: Desk) -> None:
    banking.propose(desk.store, MANAGER, None, OURS, CALL, NOW)
    with pytest.raises(sqlite3.IntegrityError, match="second person"), desk.store.writing() as db:
        bank.answer(db, 1, Answer(True, "", NOW, MANAGER.name))
    with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
        db.execute("UPDATE bank_proposals SET account = 'other'")
    with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
        db.execute("DELETE FROM bank_proposals")


def test_one_change_waits_at_a_time_and_is_answered_once(desk: Desk) -> None:
    banking.propose(desk.store, MANAGER, None, OURS, CALL, NOW)
    with pytest.raises(ProposalStands):
        banking.propose(desk.store, SECOND, None, replace(OURS, account=DE), CALL, NOW)
    with pytest.raises(BadInput):
        banking.answer(desk.store, MANAGER, 1, False, " ", NOW)
    banking.answer(desk.store, MANAGER, 1, False, "The bank knows nothing of it.", NOW)
    with pytest.raises(ProposalAnswered):
        banking.answer(desk.store, SECOND, 1, True, "", NOW)
    with pytest.raises(NotFound):
        banking.answer(desk.store, SECOND, 7, True, "", NOW)
    assert held_now(desk) is None


def test_what_was_mistyped_or_not_confirmed_is_told_field_by_field(desk: Desk) -> None:
    wrong = Account(" ", GB.replace("82", "83"), "ABCDEFGH")
    unsaid = Confirmation(How.TELEPHONE, " ", NOW.date().replace(year=2027))
    with pytest.raises(BadInput) as refused:
        banking.propose(desk.store, MANAGER, None, wrong, unsaid, NOW)
    assert {(fault.path, fault.code) for fault in refused.value.faults} == {
        ("holder", "required"),
        ("account", "not-an-iban"),
        ("routing", "not-a-bic"),
        ("spoken_to", "required"),
        ("known_number", "required"),
        ("day", "in-the-future"),
    }


def test_an_invoice_prints_the_account_that_held_when_it_was_written(desk: Desk) -> None:
    broken_rules = rules_of_en_16931()
    order = ordered(desk)
    deposited(desk, order)
    before = balancing.bill_balance(desk.store, CLERK, order, NOW)
    assert "Moorland Bank" not in whole(paper(desk, before))
    agreed(desk, None, OURS)
    kept = (paper(desk, before), xml(desk, before))
    after = balancing.bill_balance(desk.store, CLERK, ordered(desk), NOW)
    printed, written = whole(paper(desk, after)), xml(desk, after)
    assert f"To Ravensmoor Body Company, {GB} · Moorland Bank, quoting {after}." in printed
    assert b"GB82WEST12345698765432" in written
    assert (broken_rules(written.decode()), schema_faults(written)) == ([], [])
    assert "BR-50" in broken_rules(written.decode().replace("GB82WEST12345698765432", ""))
    assert (paper(desk, before), xml(desk, before)) == kept


def test_a_refund_worksheet_says_where_to_or_that_nobody_has_agreed(desk: Desk) -> None:
    order = ordered(desk)
    deposited(desk, order)
    customer = accounts.open_order(desk.store, CLERK, order, NOW).order.frozen.customer.id
    first = refunding.write_worksheet(desk.store, MANAGER, order, refunding.Decided(0, "Cancelled."), NOW)
    assert "pay nothing back before there are" in whole(paper(desk, first))
    agreed(desk, customer, Account("Agnes Thornbury", DE))
    second = refunding.write_worksheet(desk.store, MANAGER, order, refunding.Decided(0, "Cancelled."), NOW)
    assert f"Agnes Thornbury, {DE}" in whole(paper(desk, second))
    worksheet = document(desk, second).content.worksheet
    assert worksheet is not None
    assert worksheet.pay_to == Account("Agnes Thornbury", DE)


def test_a_customer_s_bank_details_are_handed_out_and_erased_with_him(desk: Desk) -> None:
    customer = desk.take_down().customer.id
    assert customer is not None
    agreed(desk, customer, Account("Agnes Thornbury", DE))
    with desk.store.reading() as db:
        assert held.rows(db, customer)["bank_proposals"][0]["account"] == DE
    told = erasing.outlook(desk.store, MANAGER, customer)
    assert told.reach.goes["bank"] == ("Agnes Thornbury",)
    erasing.erase(desk.store, MANAGER, customer, "Asked for.", told.seen, NOW)
    with desk.store.reading() as db:
        assert bank.of(db, customer) == ()
        assert db.execute("SELECT count(*) FROM bank_answers").fetchone()[0] == 0
