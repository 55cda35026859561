"""How an order stands with its money: derived from what was paid, and never converted."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

from app.domain.money.account import Account, account_of
from app.domain.money.payment import Agreement, Direction, Entry, Means, Mistake, Payment
from rules.money.tax import export, standard
from rules.money.totals import CaseTotal, InvoiceSum, Taxable, sum_up

AT, DAY = datetime(2026, 11, 2, 10, tzinfo=UTC), date(2026, 11, 2)


def case(payable: int, deposit: int) -> CaseTotal:
    whole: InvoiceSum = sum_up([Taxable(payable, "G", Decimal(0))])
    return CaseTotal("export", (export("export"),), whole, deposit, 0, payable - deposit)


#: Case 15's order, in euro.
CASE_15 = case(22_338_40, 5_584_60)


def paid(amount: int, currency: str = "EUR", direction: Direction = Direction.RECEIVED) -> Payment:
    return Payment(1, Entry(direction, amount, currency, DAY, Means.BANK_TRANSFER), AT, "imogen")


def agreed(amount: int) -> Agreement:
    return Agreement(amount, "1.15", DAY, "Greta Lindenhof", AT, "imogen")


def stands(*payments: Payment, tolerance: int = 0) -> Account:
    return account_of("EUR", CASE_15, payments, tolerance=tolerance)


def test_case_16_pounds_count_for_nothing_until_euro_are_agreed() -> None:
    account = stands(paid(4_800_00, "GBP"))
    assert (account.received, account.short, account.deposit_met) == (0, 5_584_60, False)
    assert [payment.entry.amount for payment in account.unagreed] == [4_800_00]


def test_case_16_at_5520_00_euro_it_is_short_by_64_60() -> None:
    account = stands(replace(paid(4_800_00, "GBP"), agreement=agreed(5_520_00)))
    assert (account.received, account.short, account.deposit_met) == (5_520_00, 64_60, False)
    assert account.unagreed == ()


def test_case_16_the_manager_s_tolerance_opens_the_gate_to_the_cent() -> None:
    short = replace(paid(4_800_00, "GBP"), agreement=agreed(5_520_00))
    assert not stands(short, tolerance=64_59).deposit_met
    met = stands(short, tolerance=64_60)
    assert met.deposit_met
    assert met.due == 22_338_40 - 5_520_00  # what is tolerated is still owed


def test_money_beyond_the_price_shows_as_such() -> None:
    account = stands(paid(22_338_41))
    assert (account.due, account.over, account.short) == (0, 1, 0)


def test_what_was_paid_back_no_longer_counts() -> None:
    account = stands(paid(5_584_60), paid(84_60, direction=Direction.PAID_BACK))
    assert (account.received, account.short) == (5_500_00, 84_60)


def test_a_payment_recorded_by_mistake_counts_for_nothing() -> None:
    assert stands(replace(paid(5_584_60), mistake=Mistake("Another order's.", AT, "imogen"))).received == 0


def test_what_is_payable_follows_the_balance_document_and_what_is_credited_on_it() -> None:
    account = account_of("EUR", CASE_15, [paid(22_338_40)], billed=22_338_40, credited=180_00)
    assert (account.payable, account.over) == (22_158_40, 180_00)


def test_of_an_order_that_is_cancelled_only_what_stands_billed_is_payable() -> None:
    before = account_of("EUR", CASE_15, [paid(5_584_60)], kept=5_584_60)
    assert (before.payable, before.due, before.over) == (5_584_60, 0, 0)
    credited = account_of("EUR", CASE_15, [paid(5_584_60)], kept=2_000_00)
    assert (credited.payable, credited.due, credited.over) == (2_000_00, 0, 3_584_60)
    nothing = account_of("EUR", CASE_15, [], kept=0)
    assert (nothing.payable, nothing.due) == (0, 0)


def test_of_an_order_that_is_cancelled_and_settled_nothing_is_short_of_its_deposit() -> None:
    money = [paid(5_584_60), paid(3_584_60, direction=Direction.PAID_BACK)]
    settled = account_of("EUR", CASE_15, money, kept=2_000_00)
    assert (settled.received, settled.due, settled.short, settled.deposit_met) == (2_000_00, 0, 0, False)
    uncredited = account_of("EUR", CASE_15, money, kept=5_584_60)
    assert (uncredited.due, uncredited.short) == (3_584_60, 3_584_60)
    never_paid = account_of("EUR", CASE_15, [], kept=0)
    assert (never_paid.short, never_paid.deposit_met) == (0, False)


def test_while_nobody_has_decided_the_tax_case_the_gate_stays_shut() -> None:
    account = account_of("GBP", None, [paid(99_999_99, "GBP")])
    assert (account.payable, account.deposit, account.short, account.due) == (None, None, None, None)
    assert not account.deposit_met
    assert standard(Decimal(20), "collected-at-home").kind == "standard"
