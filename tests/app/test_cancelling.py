"""Case 22: cancelled after release. A worksheet with the shell's own stage; what is kept a person says."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.domain.errors import ShellStands
from app.domain.floor.shell import ShellState
from app.domain.stock import Source
from app.services.floor import overseeing
from app.services.money import accounts, billing, printing
from app.services.money.refunding import Decided
from app.services.orders import cancelling, changing, ordering
from app.store import stock
from app.web.views.noted import changeable_view
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_case_28 import built_to, workshop  # noqa: F401 - the people of the workshop
from tests.app.test_confirming import LATER
from tests.documents.reading import whole

ORDER = "O-2026-00001"
#: Case 12: 11 850 + 240 + 285 = 12 375.00, with tax 14 850.00; a quarter is 3 712.50.
DEPOSIT = 3_712_50


def billed(desk: Desk, stage: str) -> int:
    """Case 12's shell, come into that stage, with its deposit billed."""
    shell = built_to(desk, stage, S3_ROADSTER)
    (paid,) = accounts.open_order(desk.store, CLERK, ORDER, LATER).payments
    billing.bill_deposit(desk.store, CLERK, ORDER, paid.id, LATER)
    return shell


def test_case_22_cancelled_in_rollover_weld_keeps_what_the_manager_says_and_proposes_nothing(
    workshop: Desk,  # noqa: F811
) -> None:
    shell = billed(workshop, "rollover")
    before = cancelling.look(workshop.store, MANAGER, shell, LATER)
    assert (before.shell.stage["en"], before.received, before.refundable) == ("Rollover weld", DEPOSIT, True)
    decided = Decided(2_000_00, "", hours="61", resale="Finish it for stock.")
    cancelling.cancel(workshop.store, MANAGER, shell, decided, "He has sold the car.", LATER)
    order = ordering.order(workshop.store, CLERK, ORDER, LATER)
    assert order.shells[0].state is ShellState.CANCELLED
    opened = accounts.open_order(workshop.store, MANAGER, ORDER, LATER)
    # Nothing is due of a price that nobody pays any more: what stands is the deposit's document, until it is credited.
    assert (opened.account.payable, opened.account.due, opened.account.over) == (DEPOSIT, 0, 0)
    rows = ordering.orders(workshop.store, CLERK).rows
    assert [row.cancelled for row in rows] == [True]
    assert accounts.accounts_of(workshop.store, rows) == {ORDER: opened.account}
    document = opened.documents[-1]
    sheet = document.content.worksheet
    assert sheet is not None
    # By the case: refunds 1 712.50, of which VAT 285.42; left on the part kept 333.33; together 618.75.
    assert [(row.taxable + row.tax, row.tax) for row in (*sheet.refunded, *sheet.kept)] == [
        (1_712_50, 285_42), (2_000_00, 333_33)]  # fmt: skip
    assert sum(row.tax for row in sheet.received) == 618_75
    text = whole(printing.pdf(document.content, "en", "a4"))
    assert "Shell 1, serial S-2026-00001: Rollover weld" in text
    assert "made to the customer’s specification" in text
    assert "ask a lawyer" in text
    assert sheet.of is not None
    planned = replace(document.content, worksheet=replace(sheet, of=replace(sheet.of, serial="", stage={})))
    assert "Shell 1, no serial yet: not begun" in whole(printing.pdf(planned, "en", "a4"))
    from_stock = replace(document.content, worksheet=replace(sheet, of=replace(sheet.of, from_stock=True)))
    assert "finished from stock and not made to the customer’s specification" in whole(
        printing.pdf(from_stock, "en", "a4")
    )
    with workshop.store.reading() as db:
        entry = stock.holding(db, shell)
    # Stock in build, of no donor car: it knows the order that it came from, and nobody.
    assert entry is not None
    assert (entry.source, entry.came_from) == (Source.CANCELLED, ORDER)
    assert not cancelling.look(workshop.store, MANAGER, shell, LATER).refundable
    with pytest.raises(ShellStands):
        cancelling.cancel(workshop.store, MANAGER, shell, decided, "Twice.", LATER)


def test_a_shell_of_which_nothing_was_billed_is_cancelled_without_a_worksheet(workshop: Desk) -> None:  # noqa: F811
    shell = built_to(workshop, "framing", S3_ROADSTER)
    assert not cancelling.look(workshop.store, MANAGER, shell, LATER).refundable
    cancelling.cancel(workshop.store, MANAGER, shell, None, "He has sold the car.", LATER)
    assert accounts.open_order(workshop.store, MANAGER, ORDER, LATER).documents == ()


def test_on_a_shell_that_is_in_stock_by_now_the_desk_offers_no_note_for_a_customer_to_sign(
    workshop: Desk,  # noqa: F811
) -> None:
    def shown() -> dict[str, Any]:
        return changeable_view(changing.shell_at(workshop.store, MANAGER, shell, LATER), ())

    shell = built_to(workshop, "framing", S3_ROADSTER)
    assert (shown()["order"], shown()["letter"]) == (ORDER, "A")
    cancelling.cancel(workshop.store, MANAGER, shell, None, "He has sold the car.", LATER)
    assert (shown()["order"], shown()["letter"]) == ("S-00001", "")


def test_where_the_worksheet_can_t_be_written_the_shell_is_not_cancelled_either(workshop: Desk) -> None:  # noqa: F811
    shell = billed(workshop, "framing")
    with pytest.raises(Exception, match="bad-input"):
        cancelling.cancel(workshop.store, MANAGER, shell, Decided(DEPOSIT + 1, ""), "He has sold the car.", LATER)
    assert overseeing.shell(workshop.store, MANAGER, shell, LATER).shell.state is not ShellState.CANCELLED
