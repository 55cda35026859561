"""A shell leaves: all that keeps it in is told at once, what is owed counts once it has left, the deed is signed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.despatch.despatch import (
    Credit,
    Keeps,
    Owed,
    Package,
    Packing,
    Standing,
    Term,
    credit_on,
    keeps,
    left_open,
)
from app.domain.errors import BadInput, CannotDespatch, CodeRefused, ShellStands
from app.domain.floor.shell import Deed, Done, ShellState
from app.domain.inspection.inspection import Decided, Verdict
from app.services.despatch import despatching, leaving
from app.services.floor import building, overseeing
from app.services.floor.signing import Signature
from app.services.money import balancing, dealer_credit
from app.services.orders import ordering
from app.store import inspections
from app.store import shells as kept
from app.wording import say
from rules.inspection.subject import Phase
from rules.model import Work
from tests.app import inspected
from tests.app.desk import CLERK, HOLLIN, MANAGER, Desk
from tests.app.test_billing import receive
from tests.app.test_building import CHEAP, CODES, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_inspecting import concede

TODAY = date(2027, 3, 1)
DOLLY = Package("Dolly", 4000, 1650, 1250, 360)
CRATE = Package("Crate", 4100, 1750, 1400, 480, timber=True)
PACKED = Packing((DOLLY,), 300, carrier="Our van", consignee=("Agnes Thornbury", "2 Fell Row"))
READY = Standing(ShellState.READY, "GBP", "I-2026-00002", 0, 0, PACKED, abroad=False, untaxed=False)


def what(stands: Standing) -> list[Keeps]:
    return [Keeps(fault.path) for fault in keeps(stands, TODAY)]


def test_a_ready_shell_that_is_paid_and_packed_may_go() -> None:
    assert what(READY) == []


def test_all_that_keeps_a_shell_is_told_at_once() -> None:
    export = Packing((CRATE,), 300)
    stands = replace(
        READY,
        state=ShellState.IN_PAINT,
        invoice=None,
        packing=export,
        abroad=True,
        untaxed=True,
        overcoat_by=date(2027, 2, 28),
        inspected=False,
        out=("film:bonnet",),
        concessions=("gap:bonnet-front",),
        rework=("surface",),
    )
    assert what(stands) == [
        *(Keeps.NOT_READY, Keeps.UNINSPECTED, Keeps.OUT, Keeps.REWORK, Keeps.CONCESSION, Keeps.NOT_BILLED),
        *(Keeps.CONSIGNEE, Keeps.TERM, Keeps.EVIDENCE, Keeps.TIMBER, Keeps.OVERCOAT),
    ]
    assert what(replace(READY, packing=None, state=ShellState.ON_HOLD)) == [Keeps.HELD, Keeps.NOT_PACKED]


@pytest.mark.parametrize(
    ("packing", "kept"),
    [
        # no timber: nothing is burnt into a steel frame
        (replace(PACKED, term=Term("FCA", "Leeds"), evidence="Carrier's certificate"), []),
        (replace(PACKED, packages=(CRATE,), term=Term("DAP", "Hamburg"), evidence="…"), [Keeps.TIMBER]),
        (replace(PACKED, packages=(CRATE,), term=Term("DAP", "Hamburg"), evidence="…", timber_mark="GB-1 HT"), []),
    ],
)
def test_what_goes_abroad_untaxed_needs_its_term_its_evidence_and_marked_timber(
    packing: Packing, kept: list[Keeps]
) -> None:
    assert what(replace(READY, packing=packing, abroad=True, untaxed=True)) == kept


def test_case_29_primer_past_its_day_keeps_the_shell_until_somebody_takes_it_so_in_writing() -> None:
    late = replace(READY, overcoat_by=date(2027, 2, 28))
    assert what(late) == [Keeps.OVERCOAT]
    assert what(replace(late, overcoat_by=TODAY)) == []
    words = "Agnes Thornbury, letter of 1 March 2027: she abrades it herself."
    assert what(replace(late, acknowledged=words)) == []


def test_a_private_customer_has_no_dealer_whose_credit_could_be_asked_about() -> None:
    owing = replace(READY, open=1_00)
    codes = [keeps(replace(owing, dealers=dealers), TODAY)[0].code for dealers in (False, True)]
    assert codes == ["keeps-balance", "keeps-balance-dealer"]
    for language, credit in (("en", "credit"), ("de", "Kredit")):
        private, dealer = (say(f"fault.{code}", language, invoice="I-1") for code in codes)
        assert (credit in private, credit in dealer) == (False, True)


def test_money_is_for_what_left_first() -> None:
    """Two shells are billed at 9 009.28 each; 9 009.28 came: one of them may go, whichever it is, and not both."""
    first, second = Owed("I-1", 9_009_28), Owed("I-2", 9_009_28)
    assert left_open([first], 9_009_28) == 0
    assert left_open([first, second], 9_009_28) == 9_009_28
    assert left_open([first, first], 9_009_28) == 0  # one bill of two shells is owed once


def test_a_dealer_s_credit_is_the_last_whose_day_has_come() -> None:
    told = [Credit("hollin-lane", "GBP", limit, date(2027, 2, day), "", "piers", LATER)
            for limit, day in ((20_000_00, 1), (0, 20), (5_000_00, 27))]  # fmt: skip
    assert [credit_on(told, "GBP", date(2027, 2, day)) for day in (1, 19, 20, 28)] == [
        20_000_00,
        20_000_00,
        0,
        5_000_00,
    ]
    assert credit_on(told, "EUR", TODAY) == 0
    assert what(replace(READY, open=20_000_00, credit=20_000_00)) == []
    assert what(replace(READY, open=20_000_01, credit=20_000_00)) == [Keeps.BALANCE]


def shells(desk: Desk, order: str) -> list[int]:
    return [shell.id for shell in ordering.order(desk.store, CLERK, order, LATER).shells]


def make_ready(desk: Desk, shell: int) -> None:
    """Every stage of its route, as if it had been signed."""
    building.release(desk.store, LEAD, shell, LATER)
    with desk.store.writing() as db:
        for stop in overseeing.shell(desk.store, LEAD, shell, LATER).shell.route:
            if stop.work is not Work.NONE:
                kept.add(db, shell, Done(Deed.DONE, LATER, "tomasz", stop.stage, signed="idris"))
        inspections.add_verdict(db, shell, Decided(Phase.COATED, Verdict.PASS, "", LATER, "tomasz", "oona"))


def leave(desk: Desk, shell: int, who: str = "tomasz") -> None:
    despatching.despatch(desk.store, LEAD, shell, Signature(who, CODES[who], "10.0.0.1", CHEAP), LATER)


def kept_by(desk: Desk, shell: int) -> list[str]:
    return [fault.path for fault in leaving.of_shell(desk.store, CLERK, shell, LATER).keeps]


def test_one_of_two_shells_leaves_once_its_own_balance_is_paid(workshop: Desk) -> None:  # noqa: F811
    order = confirmed_order(workshop, count=2)
    first, second = shells(workshop, order)
    assert kept_by(workshop, first) == ["not-ready", "not-billed", "not-packed"]
    for shell in (first, second):
        make_ready(workshop, shell)
        balancing.bill_balance(workshop.store, CLERK, order, LATER, shell=shell)
        despatching.pack(workshop.store, LEAD, shell, PACKED, LATER)
    found = leaving.of_shell(workshop.store, CLERK, first, LATER)
    with pytest.raises(CannotDespatch) as refused:
        leave(workshop, first)
    assert [fault.path for fault in refused.value.faults] == ["balance"]
    receive(workshop, order, found.standing.open, day=LATER.date(), at=LATER)
    leave(workshop, first)
    read = ordering.order(workshop.store, CLERK, order, LATER)
    assert ([shell.state for shell in read.shells], read.state) == (
        [ShellState.DESPATCHED, ShellState.READY],
        ShellState.READY,
    )
    assert kept_by(workshop, second) == ["balance"]
    gone = leaving.of_shell(workshop.store, CLERK, first, LATER).despatched
    assert gone is not None
    assert (gone.number, gone.by, gone.signed) == ("D-2026-00001", "tomasz", "tomasz")
    for again in (lambda: leave(workshop, first), lambda: despatching.pack(workshop.store, LEAD, first, PACKED, LATER)):
        with pytest.raises(ShellStands) as stands:
            again()
        assert stands.value.facts["why"] == "despatched"


def test_what_is_read_after_the_verdict_and_is_out_keeps_the_shell_until_it_is_conceded(
    workshop: Desk,  # noqa: F811
) -> None:
    (shell,) = shells(workshop, confirmed_order(workshop))
    make_ready(workshop, shell)
    inspected.read(workshop.store, shell, {"film:bonnet": "50"}, LATER)
    assert "out" in kept_by(workshop, shell)
    concede(workshop, shell, "film:bonnet")
    assert "out" not in kept_by(workshop, shell)
    inspected.read(workshop.store, shell, {"film:bonnet": "50.1"}, LATER)
    assert "out" in kept_by(workshop, shell)


def test_a_dealer_with_credit_has_his_shell_before_he_pays_up_to_the_limit_over_all_his_orders(
    workshop: Desk,  # noqa: F811
) -> None:
    one, other = (confirmed_order(workshop, who=HOLLIN) for _ in range(2))
    for order in (one, other):
        (shell,) = shells(workshop, order)
        make_ready(workshop, shell)
        balancing.bill_balance(workshop.store, CLERK, order, LATER, shell=shell)
        despatching.pack(workshop.store, LEAD, shell, PACKED, LATER)
    (first,), (second,) = shells(workshop, one), shells(workshop, other)
    due = leaving.of_shell(workshop.store, CLERK, first, LATER).standing.open
    give = (workshop.store, MANAGER, "hollin-lane")
    dealer_credit.give(*give, due + 1, "GBP", LATER.date() + timedelta(days=1), "Ten years of paying.", LATER)
    assert kept_by(workshop, first) == ["balance"]  # not before its day
    dealer_credit.give(*give, due + 1, "GBP", LATER.date(), "Ten years of paying.", LATER)
    leave(workshop, first)
    assert kept_by(workshop, second) == ["balance"]  # the limit is used up by the other order
    receive(workshop, one, due - 1, day=LATER.date(), at=LATER)
    assert kept_by(workshop, second) == []


def test_packing_is_weighed_and_measured_and_a_term_has_its_place(workshop: Desk) -> None:  # noqa: F811
    (shell,) = shells(workshop, confirmed_order(workshop))
    wrong = Packing((replace(DOLLY, kind=" "),), 361, term=Term("DAP"))
    with pytest.raises(BadInput) as refused:
        despatching.pack(workshop.store, LEAD, shell, wrong, LATER)
    assert [fault.path for fault in refused.value.faults] == ["packages.0.kind", "net_mass", "term.place"]
    with pytest.raises(BadInput):
        despatching.pack(workshop.store, LEAD, shell, Packing((), 300), LATER)


def test_nobody_signs_it_out_who_signs_nothing(workshop: Desk) -> None:  # noqa: F811
    (shell,) = shells(workshop, confirmed_order(workshop))
    with pytest.raises(CodeRefused):
        despatching.despatch(workshop.store, LEAD, shell, Signature("imogen", "1111", "10.0.0.1", CHEAP), LATER)
    assert leaving.of_shell(workshop.store, CLERK, shell, LATER).despatched is None
