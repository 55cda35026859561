"""Case 23 whole: a bonnet gap passed by concession, £150 of goodwill tied to invoice, line, concession and reason."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.domain.errors import BadInput
from app.domain.money.crediting import Credit
from app.domain.money.invoice import Kind
from app.services.despatch import despatching, leaving
from app.services.floor import conceding
from app.services.floor.conceding import Asked
from app.services.inspection import inspecting
from app.services.money import accounts, balancing, billing
from app.store import concessions
from rules.money.totals import TaxedSum
from tests.app.desk import CLERK, MANAGER, Desk
from tests.app.test_billing import document, paper, receive, xml
from tests.app.test_building import INSPECTOR, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_despatching import PACKED, kept_by, leave, make_ready, shells
from tests.documents.reading import whole
from tests.support.standards import rules_of_en_16931, schema_faults

WHY = "Goodwill: bonnet gap passed by concession."


def gap_of(desk: Desk, shell: int) -> str:
    """The first of the bonnet's points that its inspector reads."""
    subjects = inspecting.inspection(desk.store, INSPECTOR, shell, LATER).subjects
    return next(one.id for one in subjects if one.id.startswith("gap:b"))


def test_case_23_goodwill_for_a_gap_that_was_conceded(workshop: Desk) -> None:  # noqa: F811
    order = confirmed_order(workshop, count=2)
    first, second = shells(workshop, order)
    make_ready(workshop, first)
    gap = gap_of(workshop, first)
    asked = Asked(gap, "6.2 mm in metal, even all along; nothing to press it back with.", "6.2 mm", "5.0 ± 1.0 mm")
    concession = conceding.ask(workshop.store, INSPECTOR, first, asked, LATER)
    despatching.pack(workshop.store, LEAD, first, PACKED, LATER)
    assert kept_by(workshop, first) == ["concession", "not-billed"]

    invoice, other = (
        balancing.bill_balance(workshop.store, CLERK, order, LATER, shell=shell) for shell in (first, second)
    )
    before = (document(workshop, invoice), xml(workshop, invoice), paper(workshop, invoice))
    wanted = Credit(invoice, 1, 150_00, WHY, granted=concession)
    with pytest.raises(BadInput) as refused:
        billing.credit(workshop.store, CLERK, order, wanted, LATER)
    assert [fault.code for fault in refused.value.faults] == ["concession-not-granted"]
    conceding.answer(workshop.store, MANAGER, first, concession, True, "Even, and the customer agrees.", LATER)
    with pytest.raises(BadInput) as elsewhere:
        billing.credit(workshop.store, CLERK, order, Credit(other, 1, 150_00, WHY, granted=concession), LATER)
    assert [fault.code for fault in elsewhere.value.faults] == ["concession-elsewhere"]

    note = document(workshop, billing.credit(workshop.store, CLERK, order, wanted, LATER))
    assert (note.kind, note.rows) == (Kind.CREDIT_NOTE, (TaxedSum("S", Decimal(20), 150_00, 30_00),))
    assert note.content.sum.with_tax == 180_00
    assert (note.content.credits, note.content.credited_line, note.content.why) == (invoice, 1, WHY)
    granted = note.content.granted
    assert granted is not None
    assert (granted.subject["en"], granted.day) == ("Gap in metal: Bonnet to wing, left, front", LATER.date())
    assert (rules_of_en_16931()(xml(workshop, note.number).decode()), schema_faults(xml(workshop, note.number))) == (
        [],
        [],
    )
    printed, conceded = whole(paper(workshop, note.number)), f"shell {granted.serial}: {granted.subject['en']}"
    assert all(words in printed for words in (invoice, WHY, conceded, "£150.00", "£30.00", "£180.00"))
    assert gap not in printed
    assert f"{conceded}, granted on 3 November 2026." in xml(workshop, note.number).decode()
    assert (document(workshop, invoice), xml(workshop, invoice), paper(workshop, invoice)) == before

    # What the note takes off is no longer owed, and the shell leaves with its concession in the record.
    open_ = leaving.of_shell(workshop.store, CLERK, first, LATER).standing.open
    receive(workshop, order, open_, day=LATER.date(), at=LATER)
    leave(workshop, first)
    account = accounts.open_order(workshop.store, CLERK, order, LATER).account
    assert account.payable == 2 * 14_508_00 - 180_00
    with workshop.store.reading() as db:
        assert [one.id for one in concessions.of_shell(db, first)] == [concession]
