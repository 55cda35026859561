"""Balances billed shell by shell: each with its own share of the deposit, and together no more than the order's."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from app.domain.errors import DocumentStands, ShellStands
from app.domain.floor.shell import Deed
from app.domain.money.crediting import Credit
from app.domain.money.invoice import Document
from app.services.books import publishing
from app.services.floor import building
from app.services.money import accounts, balancing, billing, refunding
from app.services.money.refunding import Decided
from app.services.orders import ordering
from demo.loading import BOOK
from rules.money.totals import TaxedSum
from tests.app.desk import CLERK, HOLLIN, MANAGER, NOW, Desk
from tests.app.test_billing import deposited, document, ordered, paper, receive, xml
from tests.documents.reading import whole
from tests.support.standards import Check, rules_of_en_16931, schema_faults

TWENTY = Decimal(20)


@pytest.fixture(scope="module")
def broken_rules() -> Check:
    return rules_of_en_16931()


def three(desk: Desk) -> str:
    """Case 13's order."""
    return ordered(desk, quantity=3, who=HOLLIN, delivery="collected")


def shells(desk: Desk, order: str) -> list[int]:
    return [shell.id for shell in ordering.order(desk.store, CLERK, order, NOW).shells]


def bill(desk: Desk, order: str, shell: int | None = None, days: int = 0) -> Document:
    at = NOW + timedelta(days=days)
    return document(desk, balancing.bill_balance(desk.store, CLERK, order, at, shell=shell))


def sums(made: Document) -> tuple[int, int, int, int]:
    whole = made.content.sum
    return whole.without_tax, whole.tax, whole.prepaid, whole.payable


def test_case_13_shell_by_shell_each_bill_sets_off_its_own_share_of_the_deposit(
    desk: Desk, broken_rules: Check
) -> None:
    order = three(desk)
    deposited(desk, order, 9_009_29)
    first, second, third = (bill(desk, order, shell) for shell in shells(desk, order))
    assert first.content.buyer.name == "Hollin Lane Classics"  # his terms are not for his customer's eyes
    assert sums(first) == (10_010_32, 2_002_06, 3_003_10, 9_009_28)
    assert sums(second) == (10_010_32, 2_002_06, 3_003_10, 9_009_28)
    assert sums(third) == (10_010_32, 2_002_06, 3_003_09, 9_009_29)
    set_off = [row for made in (first, second, third) for one in made.content.set_off for row in one.rows]
    assert (sum(row.taxable for row in set_off), sum(row.tax for row in set_off)) == (7_507_74, 1_501_55)
    for made in (first, second, third):
        assert (broken_rules(xml(desk, made.number).decode()), schema_faults(xml(desk, made.number))) == ([], [])
    account = accounts.open_order(desk.store, CLERK, order, NOW).account
    assert (account.payable, account.due) == (36_037_14, 36_037_14 - 9_009_29)


def test_case_13_in_one_bill_stays_to_the_penny_what_was_quoted(desk: Desk) -> None:
    order = three(desk)
    deposited(desk, order, 9_009_29)
    assert sums(bill(desk, order)) == (30_030_96, 6_006_19, 9_009_29, 27_027_86)
    assert accounts.open_order(desk.store, CLERK, order, NOW).account.payable == 36_037_15


def test_what_is_not_billed_yet_counts_as_it_was_agreed(desk: Desk) -> None:
    order = three(desk)
    deposited(desk, order, 9_009_29)
    one, *_ = shells(desk, order)
    bill(desk, order, one)
    assert accounts.open_order(desk.store, CLERK, order, NOW).account.payable == 36_037_14
    rest = bill(desk, order)
    assert [line.quantity for line in rest.content.lines] == [2]
    assert sums(rest) == (20_020_64, 4_004_13, 6_006_19, 18_018_58)
    assert accounts.open_order(desk.store, CLERK, order, NOW).account.payable == 36_037_15
    with pytest.raises(DocumentStands):
        bill(desk, order)


def test_a_shell_is_billed_once_until_its_bill_is_credited_in_full(desk: Desk) -> None:
    order = three(desk)
    advance = deposited(desk, order, 9_009_29)
    one, *_ = shells(desk, order)
    made = bill(desk, order, one)
    with pytest.raises(DocumentStands) as refused:
        bill(desk, order, one)
    assert refused.value.facts == {"document": made.number}
    billing.credit(desk.store, CLERK, order, Credit(made.number, 1, 10_010_32, "Billed too early."), NOW)
    again = bill(desk, order, one)
    assert (sums(again), again.content.set_off[0].number) == (sums(made), advance.number)


def test_a_cancelled_shell_is_not_billed_and_its_share_of_the_deposit_stays_to_be_settled(desk: Desk) -> None:
    order = three(desk)
    deposited(desk, order, 9_009_29)
    *_, third = shells(desk, order)
    building.say(desk.store, MANAGER, third, Deed.CANCELLED, "The customer wants two only.", NOW)
    with pytest.raises(ShellStands):
        bill(desk, order, third)
    assert sums(bill(desk, order)) == (20_020_64, 4_004_13, 6_006_20, 18_018_57)
    sheet = refunding.refund_sum(desk.store, MANAGER, order, 0, NOW)
    assert sum(row.taxable + row.tax for row in sheet.refunded) == 3_003_09


def test_case_24_shell_by_shell_the_share_of_the_deposit_keeps_the_rate_it_was_taxed_at(
    desk: Desk, broken_rules: Check
) -> None:
    """The invented rate of 22 % holds from 1 December."""
    order = three(desk)
    deposited(desk, order, 9_009_29)
    text, row = BOOK.read_text(encoding="utf-8"), "  | 2011-01-04 | 20 %    |\n"
    publishing.publish_book(desk.store, MANAGER, text.replace(row, row + "  | 2026-12-01 | 22 %    |\n"), NOW)
    one, *_ = shells(desk, order)
    made = bill(desk, order, one, days=40)
    # 3 003.10 holds 500.52 of tax; of the rest, 10 010.32 − 2 502.58 = 7 507.74, 22 % is 1 651.70
    assert made.rows == (TaxedSum("S", Decimal(22), 7_507_74, 1_651_70), TaxedSum("S", TWENTY, 2_502_58, 500_52))
    assert made.content.sum.payable == 7_507_74 + 1_651_70
    assert (broken_rules(xml(desk, made.number).decode()), schema_faults(xml(desk, made.number))) == ([], [])


def test_a_payment_in_advance_that_comes_after_the_first_bill_is_for_the_shells_that_are_left(desk: Desk) -> None:
    order = three(desk)
    one, two, _ = shells(desk, order)
    bill(desk, order, one)
    billing.bill_deposit(desk.store, CLERK, order, receive(desk, order, 6_000_00), NOW)
    assert bill(desk, order, two).content.sum.prepaid == 3_000_00


def test_the_paper_names_the_shell_by_its_serial_and_the_share_that_is_set_off(desk: Desk) -> None:
    order = three(desk)
    advance = deposited(desk, order, 9_009_29)
    made = bill(desk, order, shells(desk, order)[0])
    printed = whole(paper(desk, made.number))
    assert all(words in printed for words in (advance.number, "£3,003.10", "£9,009.28"))


def test_what_an_order_has_beside_its_shells_goes_with_the_first_bill(desk: Desk) -> None:
    order = ordered(desk, quantity=2, extras={"photo-book": 1})
    deposited(desk, order, 1_000_00)
    one, two = shells(desk, order)
    first, second = bill(desk, order, one), bill(desk, order, two)
    assert [len(made.content.lines) for made in (first, second)] == [2, 1]
    assert first.content.sum.without_tax - second.content.sum.without_tax == 145_00
    assert first.content.sum.prepaid + second.content.sum.prepaid == 1_000_00
    kept = refunding.write_worksheet
    with pytest.raises(Exception, match="nothing-to-bill"):
        kept(desk.store, MANAGER, order, Decided(0, "Nothing is left."), NOW)


def owed(desk: Desk, order: str) -> tuple[int | None, int | None, int]:
    """By the order's page, which the list of orders says, too: payable, due, over."""
    account = accounts.open_order(desk.store, CLERK, order, NOW).account
    assert accounts.accounts_of(desk.store, ordering.orders(desk.store, CLERK).rows)[order] == account
    return account.payable, account.due, account.over


def test_of_an_order_of_three_the_price_of_a_cancelled_shell_is_due_no_longer(desk: Desk) -> None:
    """Case 13's three at 36 037.15: a third is 12 012.39 or 12 012.38; 9 009.29 is paid, 3 003.09 for the third."""
    order = three(desk)
    deposited(desk, order, 9_009_29)
    *_, third = shells(desk, order)
    building.say(desk.store, MANAGER, third, Deed.CANCELLED, "The customer wants two only.", NOW)
    # Two shells, and of the third what stands billed in advance until it is credited.
    assert owed(desk, order) == (24_024_77 + 3_003_09, 18_018_57, 0)
    sheet = refunding.write_worksheet(desk.store, MANAGER, order, Decided(9_009_29 - 3_003_09 + 1_000_00, "."), NOW)
    refunding.credit_refund(desk.store, MANAGER, order, sheet, NOW)
    # 1 000.00 of the third's is kept; 2 003.09 was paid and is to be paid back.
    assert owed(desk, order) == (24_024_77 + 1_000_00, 16_015_48, 0)
    assert sums(bill(desk, order)) == (20_020_64, 4_004_13, 6_006_20, 18_018_57)
    assert owed(desk, order) == (24_024_77 + 1_000_00, 16_015_48, 0)


def test_a_shell_that_is_cancelled_while_another_is_billed_already_leaves_what_the_third_costs(desk: Desk) -> None:
    order = three(desk)
    deposited(desk, order, 9_009_29)
    first, second, third = shells(desk, order)
    bill(desk, order, first)
    building.say(desk.store, MANAGER, second, Deed.CANCELLED, "The customer wants two only.", NOW)
    assert owed(desk, order) == (12_012_38 + 12_012_38 + 3_003_10, 18_018_57, 0)
    with pytest.raises(ShellStands):
        bill(desk, order, second)
    bill(desk, order, third)
    assert owed(desk, order) == (12_012_38 + 12_012_38 + 3_003_10, 18_018_57, 0)


def test_what_is_billed_in_advance_after_a_shell_was_cancelled_is_for_the_others_alone(desk: Desk) -> None:
    order = three(desk)
    *_, third = shells(desk, order)
    building.say(desk.store, MANAGER, third, Deed.CANCELLED, "The customer wants two only.", NOW)
    assert owed(desk, order) == (24_024_77, 24_024_77, 0)
    later = NOW + timedelta(hours=1)
    # More than the two cost: what goes beyond that is billed for nothing.
    billing.bill_deposit(desk.store, CLERK, order, receive(desk, order, 25_000_00), later)
    assert owed(desk, order) == (24_024_77, 0, 975_23)
    assert sums(bill(desk, order)) == (20_020_64, 4_004_13, 24_024_77, 0)
    assert owed(desk, order) == (24_024_77, 0, 975_23)
