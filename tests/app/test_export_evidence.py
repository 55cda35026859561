"""An export stays untaxed only with its evidence, held within three months (VAT Notice 703): recorded, asked for, late.

From which day the months run is from memory of the notice: paid for in full or sent off, whichever was first.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from app.domain.errors import BadInput, NoEvidenceWanted
from app.domain.money.export import Evidence, EvidenceStands, ExportEvidence
from app.domain.quotations.quotation import DeliveryPlace, Reply
from app.services.despatch import despatching, holding_evidence, leaving
from app.services.floor import kitting
from app.services.money import balancing
from app.services.orders import ordering
from app.services.quotations import settling
from app.wording import say
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk
from tests.app.test_billing import receive
from tests.app.test_building import LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirm, pay, through
from tests.app.test_consigning import ABROAD, gone
from tests.app.test_despatching import leave, make_ready, shells

LEFT = date(2027, 1, 20)
SENT = "Goods departed message 27GB0000000000000."


def told(*days: date | None) -> tuple[Evidence, ...]:
    return tuple(Evidence(SENT, day, LATER, "imogen") for day in days)


@pytest.mark.parametrize(
    ("paid", "said", "today", "due", "stands"),
    [
        (None, (), date(2027, 4, 20), date(2027, 4, 20), EvidenceStands.AWAITED),  # the last day is in time
        (None, (), date(2027, 4, 21), date(2027, 4, 20), EvidenceStands.OVERDUE),
        # paid for before it left, as in case 18: the months run from that day
        (date(2027, 1, 4), (), date(2027, 4, 5), date(2027, 4, 4), EvidenceStands.OVERDUE),
        (date(2027, 2, 1), (), date(2027, 4, 20), date(2027, 4, 20), EvidenceStands.AWAITED),
        (None, (date(2027, 4, 20),), date(2027, 9, 1), date(2027, 4, 20), EvidenceStands.HELD),
        (None, (date(2027, 4, 21),), date(2027, 9, 1), date(2027, 4, 20), EvidenceStands.HELD_LATE),
        (None, (date(2027, 2, 1), None), date(2027, 4, 20), date(2027, 4, 20), EvidenceStands.AWAITED),
        (None, (date(2027, 2, 1), None), date(2027, 4, 21), date(2027, 4, 20), EvidenceStands.OVERDUE),
    ],
)
def test_the_evidence_is_held_in_time_late_or_not_at_all(
    paid: date | None, said: tuple[date | None, ...], today: date, due: date, stands: EvidenceStands
) -> None:
    one = ExportEvidence(LEFT, paid, told(*said))
    assert (one.due, one.stands(today)) == (due, stands)


def test_once_the_day_is_past_it_says_plainly_that_the_sale_may_have_to_be_taxed_and_sends_to_the_accountant() -> None:
    for language, tax, who in (("en", "may have to be taxed", "accountant"), ("de", "versteuert", "Steuerberatung")):
        for stands in ("overdue", "held-late"):
            sentence = say(f"export-evidence.{stands}", language)
            assert tax in sentence
            assert who in sentence


def exported(desk: Desk) -> int:
    """A shell to South Africa that is paid for and has left, all on 3 November 2026."""
    wish = desk.wish("Karoo Road Restorations", country="ZA")
    chosen = {**S3_ROADSTER, "packing": "frame", "delivery": "port"}
    number = desk.drafted((chosen, 1), wish=wish, place=DeliveryPlace("ZA"))
    desk.issue(number)
    settling.accept(desk.store, CLERK, number, "A", Reply(NOW, "Themba"), NOW, expected=desk.revision(number).version)
    order = ordering.order_of(desk.store, CLERK, number)
    pay(desk, order)
    through(desk, order)
    confirm(desk, order)
    (shell,) = shells(desk, order)
    kitting.all_present(desk.store, MANAGER, shell, LATER)
    make_ready(desk, shell)
    balancing.bill_balance(desk.store, CLERK, order, LATER, shell=shell)
    despatching.pack(desk.store, LEAD, shell, ABROAD, LATER)
    receive(desk, order, leaving.of_shell(desk.store, CLERK, shell, LATER).standing.open, day=LATER.date(), at=LATER)
    leave(desk, shell)
    return shell


def evidence(desk: Desk, shell: int, at: datetime = LATER) -> ExportEvidence:
    found = leaving.of_shell(desk.store, CLERK, shell, at).evidence
    assert found is not None
    return found


def test_the_office_records_what_came_after_the_shell_left_and_takes_back_what_was_of_another(
    workshop: Desk,  # noqa: F811
) -> None:
    shell, then = exported(workshop), LATER + timedelta(days=20)
    waits = evidence(workshop, shell)
    assert (waits.left, waits.paid, waits.due) == (date(2026, 11, 3), date(2026, 11, 3), date(2027, 2, 3))
    assert (waits.stands(date(2027, 2, 3)), waits.held) == (EvidenceStands.AWAITED, None)
    with pytest.raises(BadInput) as ahead:
        holding_evidence.hold(workshop.store, CLERK, shell, SENT, then.date() + timedelta(days=1), then)
    assert [(one.path, one.code) for one in ahead.value.faults] == [("day", "in-the-future")]

    holding_evidence.hold(workshop.store, CLERK, shell, SENT, then.date(), then)
    held = evidence(workshop, shell)
    assert held.held == Evidence(SENT, then.date(), then, "imogen")
    holding_evidence.take_back(workshop.store, MANAGER, shell, "It names another shell.", then)
    assert evidence(workshop, shell).held is None
    with pytest.raises(NoEvidenceWanted) as none:
        holding_evidence.take_back(workshop.store, MANAGER, shell, "Once more.", then)
    assert none.value.facts["why"] == "none-held"

    order = ordering.order(
        workshop.store, CLERK, leaving.of_shell(workshop.store, CLERK, shell, then).order.number, then
    )
    said = [(one.what, one.facts["said"]) for one in order.history if one.what.startswith("export-evidence")]
    assert said == [
        ("export-evidence-held", SENT),
        ("export-evidence-taken-back", "It names another shell."),
    ]


def test_of_a_taxed_sale_no_evidence_is_wanted_nor_of_a_shell_that_is_still_here(workshop: Desk) -> None:  # noqa: F811
    home = gone(workshop, replace(ABROAD, evidence=""))
    assert leaving.of_shell(workshop.store, CLERK, home, LATER).evidence is None
    with pytest.raises(NoEvidenceWanted) as refused:
        holding_evidence.hold(workshop.store, CLERK, home, SENT, LATER.date(), LATER)
    assert refused.value.facts["why"] == "not-exported"
