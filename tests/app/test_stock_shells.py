# ruff: noqa: F811 - a fixture of a neighbour
"""Shells of stock: on the floor like any other, held for a quotation, an order's alone. Cases 22 and 30a are here."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from pathlib import Path
from threading import Barrier, Thread

import pytest

from app import calendar
from app.domain.errors import NotFound, StockBegun, StockMisfit, StockTaken, StockUnready
from app.domain.floor.shell import Deed, Done, ShellState
from app.domain.inspection.inspection import Verdict
from app.domain.quotations.quotation import Reply
from app.domain.stock import InStock, Source, StockAct, StockShell, StockState
from app.services.answering.specifying import Asked
from app.services.books import consequences
from app.services.floor import building, kitting, laying_out, overseeing
from app.services.inspection import passing
from app.services.inspection.passing import Said
from app.services.orders import ordering
from app.services.planning import promising
from app.services.quotations import handing_out, quoting, settling
from app.services.stock import allocating, claiming, matching, offering, stocking
from app.store import shells as floor
from app.store import slots, stock
from app.store.db import Store
from rules.inspection.subject import Phase
from rules.model import Allowed, ToolCondition
from tests.app.desk import CLERK, HOLLIN, MANAGER, S3_ROADSTER, Desk
from tests.app.test_building import CODES, INSPECTOR, LEAD, C, D, X, shells, sign, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirm, confirmed_order, pay, through
from tests.app.test_inspecting import signature
from tests.app.test_stocking import for_stock
from tests.documents.reading import whole

#: Up to the floor: everything before the paint shop.
BUILT = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap")
EUROPE = {**S3_ROADSTER, "market": "europe"}


def of(desk: Desk, key: int) -> InStock:
    with desk.store.reading() as db:
        return matching.in_stock(db, key)


def released(desk: Desk, chosen: dict[str, str] = S3_ROADSTER, *done: str) -> StockShell:
    """For stock, with its serial, through these stages."""
    made = for_stock(desk, chosen)
    kitting.all_present(desk.store, LEAD, made.shell, LATER)
    building.release(desk.store, LEAD, made.shell, LATER)
    for stage in done:
        sign(desk, made.shell, stage, "oona" if stage == "inspection" else "idris")
    return made


def finished(desk: Desk, chosen: dict[str, str] = S3_ROADSTER) -> StockShell:
    return released(desk, chosen, *BUILT, "inspection", "preparation")


def asked(desk: Desk, chosen: dict[str, str] = S3_ROADSTER) -> Asked:
    return Asked(desk.specification(chosen), price_list="GBP", delivery_country="GB")


def found(desk: Desk, chosen: dict[str, str] = S3_ROADSTER) -> tuple[matching.Match, ...]:
    return matching.matches(desk.store, CLERK, asked(desk, chosen), calendar.around, LATER).found


def take(desk: Desk, number: str, key: int, at: datetime = LATER, who: object = CLERK, **more: bool) -> None:
    version = desk.revision(number, who=who).version  # type: ignore[arg-type]
    claiming.take(desk.store, who, number, "A", 1, key, calendar.around, at, expected=version, **more)  # type: ignore[arg-type]


def ordered(desk: Desk, number: str, at: datetime = LATER) -> str:
    """Issued, accepted, paid; the order's number."""
    version = desk.revision(number).version
    quoting.issue(desk.store, CLERK, number, "A", at, expected=version, working=calendar.around)
    version = desk.revision(number).version
    settling.accept(desk.store, CLERK, number, "A", Reply(at, "Agnes"), at, expected=version)
    order = ordering.order_of(desk.store, CLERK, number)
    pay(desk, order)
    return order


def test_a_shell_for_stock_is_released_and_signed_for_like_any_other_and_no_order_knows_of_it(workshop: Desk) -> None:
    made = released(workshop, S3_ROADSTER, "sub-assembly")
    assert (of(workshop, made.id).shell.serial, of(workshop, made.id).shell.state) == (
        "S-2026-00001",
        ShellState.IN_BUILD,
    )
    (seen,) = overseeing.floor(workshop.store, LATER)
    assert (seen.order.number, seen.shell.serial, seen.days["framing"][0]) == (
        "S-00001",
        "S-2026-00001",
        made.plan.slot,
    )
    order = confirmed_order(workshop)
    building.release(workshop.store, LEAD, shells(workshop, order)[0], LATER)
    assert ordering.order(workshop.store, CLERK, order, LATER).shells[0].serial == "S-2026-00002"


def test_what_is_released_for_stock_is_not_withdrawn_and_what_was_scrapped_is_in_stock_no_more(workshop: Desk) -> None:
    made = released(workshop)
    with pytest.raises(StockBegun):
        stocking.withdraw(workshop.store, CLERK, made.id, LATER)
    building.say(workshop.store, INSPECTOR, made.shell, X, "The sill is torn.", LATER)
    assert stocking.stock(workshop.store).shells == ()
    assert overseeing.floor(workshop.store, LATER) == ()


def test_what_its_inspector_rejects_is_in_stock_no_more_either(workshop: Desk) -> None:
    made = released(workshop, S3_ROADSTER, *BUILT)
    rejected = Said(Phase.METAL, Verdict.REJECT, "The sill is torn.")
    passing.decide(workshop.store, INSPECTOR, made.shell, rejected, signature(), LATER)
    assert stocking.stock(workshop.store).shells == ()
    assert overseeing.floor(workshop.store, LATER) == ()


def test_case_22_a_cancelled_shell_is_stock_in_build_with_its_serial_and_without_customer_and_donor(
    workshop: Desk,
) -> None:
    order = confirmed_order(workshop, count=2)
    first, _ = shells(workshop, order)
    kitting.all_present(workshop.store, LEAD, first, LATER)
    building.release(workshop.store, LEAD, first, LATER)
    for stage in ("sub-assembly", "framing"):
        sign(workshop, first, stage)
    slot = slots_of(workshop, order)[0]
    building.say(workshop.store, MANAGER, first, C, "The customer died.", LATER)
    ((told, _),) = stocking.stock(workshop.store).shells
    entry = told.stock
    here = of(workshop, entry.id)
    assert (entry.source, entry.came_from, entry.why, entry.plan.slot) == (
        Source.CANCELLED,
        order,
        "The customer died.",
        slot,
    )
    assert (here.state(LATER), here.shell.serial, here.shell.progress.stage) == (
        StockState.FREE,
        "S-2026-00001",
        "rollover",
    )
    # to its order it stays cancelled; on the floor it goes on, for nobody
    sign(workshop, first, "rollover")
    assert ordering.order(workshop.store, CLERK, order, LATER).shells[0].state is ShellState.CANCELLED
    on_floor = next(
        one for one in overseeing.floor(workshop.store, LATER) if one.shell.id == first and one.order.id == 0
    )
    assert (on_floor.shell.progress.stage, on_floor.order.frozen.customer.name) == ("skinning", "")
    assert on_floor.order.frozen.donor.number_text == ""


def slots_of(desk: Desk, order: str) -> list[date]:
    with desk.store.reading() as db:
        return [one.promise.slot for one in slots.held(db, ordering.order(desk.store, CLERK, order, LATER).id)]


def test_a_planned_shell_that_is_cancelled_is_no_stock(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=2)
    building.say(workshop.store, MANAGER, shells(workshop, order)[0], C, "One is enough.", LATER)
    assert stocking.stock(workshop.store).shells == ()


def test_what_is_wanted_is_offered_from_stock_with_the_days_that_it_saves(workshop: Desk) -> None:
    finished(workshop)
    (match,) = found(workshop)
    assert (match.shell.name, match.fits, match.conversion.differences, match.price) == ("S-2026-00001", True, (), 0)
    dated = matching.matches(workshop.store, CLERK, asked(workshop), calendar.around, LATER).dated
    assert dated is not None
    assert dated.promise is not None
    # ready at once; a new one is in the jig on 10 November and ready 21 working days later: 26 from 3 November
    assert (match.ready, dated.promise.ready, match.days) == (LATER.date(), date(2026, 12, 9), 26)


def test_what_can_still_be_changed_at_its_stage_is_told_with_work_and_days_and_what_cannot_stays(
    workshop: Desk,
) -> None:
    released(workshop, S3_ROADSTER, *BUILT[:2])
    (painted,) = found(workshop, {**S3_ROADSTER, "finish": "painted", "scope": "outside", "colour": "chalk",
                                  "primer": "epoxy-and-filler", "packing": "crate"})  # fmt: skip
    assert painted.fits
    assert {one.option: one.taken for one in painted.conversion.differences}["finish"] is Allowed.FREE
    assert painted.conversion.days > 0
    assert any(one.stage == "paint" for one in painted.conversion.work)
    # the hand is fixed in the jig: the shell is no answer to it but as it is
    (other,) = found(workshop, {**S3_ROADSTER, "steering": "left"})
    assert not other.fits
    assert [one.option for one in other.conversion.kept] == ["steering"]
    assert found(workshop, {**S3_ROADSTER, "body": "coupe"}) == ()


def test_one_deed_takes_it_to_the_quotation_and_the_deposit_gives_it_to_the_order(workshop: Desk) -> None:
    made = finished(workshop)
    number = workshop.drafted((S3_ROADSTER, 2))
    take(workshop, number, made.id)
    assert [line.quantity for line in workshop.revision(number).lines] == [1, 1]
    assert of(workshop, made.id).state(LATER) is StockState.RESERVED
    order = ordered(workshop, number)
    frozen = workshop.revision(number).lines[0].frozen
    assert frozen is not None
    assert frozen.stock is not None
    assert frozen.foreseen is not None
    assert (frozen.stock.name, frozen.stock.finished, frozen.foreseen.ready) == ("S-2026-00001", True, LATER.date())
    through(workshop, order)
    assert of(workshop, made.id).state(LATER) is StockState.ALLOCATED
    confirm(workshop, order)
    assert of(workshop, made.id).state(LATER) is StockState.SOLD
    own, new = ordering.order(workshop.store, CLERK, order, LATER).shells
    assert (own.serial, own.stock, own.state) == ("S-2026-00001", "S-00001", ShellState.READY)
    assert (new.serial, new.stock, new.state) == (None, "", ShellState.PLANNED)
    (kept, _) = promising.order_dates(workshop.store, CLERK, order, calendar.around, LATER).shells
    assert kept.kept is not None
    assert (kept.kept.promise.slot, kept.kept.promise.ready) == (made.plan.slot, LATER.date())


def test_the_paper_says_which_shell_it_is_until_when_it_is_held_and_how_cancelling_differs(workshop: Desk) -> None:
    made, number = finished(workshop), workshop.drafted((S3_ROADSTER, 1), (EUROPE, 1))
    take(workshop, number, made.id)
    version = workshop.revision(number).version
    quoting.issue(workshop.store, CLERK, number, "A", LATER, expected=version, working=calendar.around)
    for language, said in (
        ("en", ("Shell 1 is S-2026-00001 from our stock, finished.", "until 5 November 2026, 10:00", "ask a lawyer")),
        ("de", ("Karosserie 1 ist S-2026-00001 aus unserem Lager, fertig.", "bis 5. November 2026, 10:00", "Anwalt")),
    ):
        pdf = handing_out.paper(workshop.store, CLERK, number, "A", language, "a4", LATER)
        text = " ".join(whole(pdf).split())
        assert [one for one in said if one not in text] == []


def test_the_folder_of_sheets_has_each_shell_once_by_whom_it_is_built_for_now(workshop: Desk, tmp_path: Path) -> None:
    order = confirmed_order(workshop, count=2)
    first, _ = shells(workshop, order)
    kitting.all_present(workshop.store, LEAD, first, LATER)
    building.release(workshop.store, LEAD, first, LATER)
    building.say(workshop.store, MANAGER, first, C, "One is enough.", LATER)
    made = released(workshop)
    number = workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    through(workshop, ordered(workshop, number))
    laid = laying_out.lay_out(workshop.store, LEAD, tmp_path, "", LATER)
    assert sorted(name[:12] for name in laid) == ["S-2026-00001", "S-2026-00002"]


def test_a_half_built_one_goes_on_under_the_order_that_it_went_to(workshop: Desk) -> None:
    made = released(workshop, S3_ROADSTER, *BUILT[:2])
    number = workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    order = ordered(workshop, number)
    through(workshop, order)
    confirm(workshop, order)
    sign(workshop, made.shell, "rollover")
    (seen,) = overseeing.floor(workshop.store, LATER)
    assert (seen.order.number, seen.shell.progress.stage, seen.shell.serial) == (order, "skinning", "S-2026-00001")
    # cancelled there, it is stock once more, as that order made it
    building.say(workshop.store, MANAGER, made.shell, C, "No money.", LATER + timedelta(hours=1))
    ((told, _),) = stocking.stock(workshop.store).shells
    again = told.stock
    assert (again.source, again.came_from, of(workshop, again.id).shell.progress.stage) == (
        Source.CANCELLED,
        order,
        "skinning",
    )
    assert ordering.order(workshop.store, CLERK, order, LATER).shells[0].state is ShellState.CANCELLED


def test_a_reservation_runs_out_by_itself_is_extended_once_and_can_be_let_go(workshop: Desk) -> None:
    made, number = finished(workshop), workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    held = of(workshop, made.id).reserved
    assert held is not None
    assert (held.quotation, held.until) == (number, LATER + timedelta(hours=48))
    assert of(workshop, made.id).state(held.until - timedelta(seconds=1)) is StockState.RESERVED
    assert of(workshop, made.id).state(held.until) is StockState.FREE
    then = LATER + timedelta(hours=40)
    claiming.extend(workshop.store, CLERK, made.id, then)
    assert of(workshop, made.id).state(then + timedelta(hours=47)) is StockState.RESERVED
    with pytest.raises(StockUnready) as once:
        claiming.extend(workshop.store, CLERK, made.id, then)
    assert once.value.facts["why"] == "stock-extended"
    claiming.let_go(workshop.store, CLERK, made.id, then)
    assert of(workshop, made.id).state(then) is StockState.FREE


def test_taken_once_more_for_the_same_quotation_it_is_extended_no_second_time(workshop: Desk) -> None:
    made, number = finished(workshop), workshop.drafted((S3_ROADSTER, 2))
    take(workshop, number, made.id)
    claiming.extend(workshop.store, CLERK, made.id, LATER)
    take(workshop, number, made.id)
    with pytest.raises(StockUnready) as once:
        claiming.extend(workshop.store, CLERK, made.id, LATER)
    assert once.value.facts["why"] == "stock-extended"


def test_a_dealer_holds_for_his_own_quotation_and_ends_nobody_else_s(workshop: Desk) -> None:
    made = finished(workshop)
    take(workshop, workshop.drafted((S3_ROADSTER, 1), who=HOLLIN), made.id, who=HOLLIN)
    second = finished(workshop)
    take(workshop, workshop.drafted((S3_ROADSTER, 1)), second.id)
    with pytest.raises(NotFound):
        claiming.let_go(workshop.store, HOLLIN, second.id, LATER)
    claiming.let_go(workshop.store, CLERK, made.id, LATER)


def test_case_30a_the_second_reads_when_it_was_taken_and_the_nearest_that_is_free_and_his_draft_stays(
    workshop: Desk,
) -> None:
    first, _far, near = finished(workshop), finished(workshop, EUROPE), finished(workshop)
    winner, loser = workshop.drafted((S3_ROADSTER, 1)), workshop.drafted((S3_ROADSTER, 1), who=HOLLIN)
    before = workshop.revision(loser, who=HOLLIN)
    take(workshop, winner, first.id)
    with pytest.raises(StockTaken) as taken:
        take(workshop, loser, first.id, LATER + timedelta(seconds=1), HOLLIN)
    told = {name: taken.value.facts[name] for name in ("number", "clock", "day", "nearest")}
    nearest = of(workshop, near.id).name
    assert told == {"number": "S-2026-00001", "clock": "10:00", "day": LATER.date(), "nearest": nearest}
    assert workshop.revision(loser, who=HOLLIN) == before


RACES = 1000


def test_case_30a_a_thousand_races_for_one_shell_never_have_two_winners(desk: Desk) -> None:
    made = for_stock(desk)
    quotations = [desk.drafted((S3_ROADSTER, 1)) for _ in range(2)]
    with desk.store.writing() as db:
        keys = [
            stock.add(db, made.book, made.settled, "imogen", LATER, shell=floor.begin_for_stock(db))
            for _ in range(RACES)
        ]
        for key in keys:
            stock.act(db, key, StockAct.TAKEN, made.plan, "", "imogen", LATER)
            entry = stock.get(db, key)
            assert entry is not None
            floor.release(db, entry.shell, f"S-{key}", (), Done(Deed.RELEASED, LATER, "tomasz"))
    together, won = Barrier(2), {number: set[int]() for number in quotations}
    lost: dict[str, set[int]] = {number: set() for number in quotations}

    def race(number: str, through: Store) -> None:
        for key in keys:
            together.wait()
            try:
                with through.writing() as db:
                    claiming.hold(db, claiming.to_be_had(db, key, number, LATER), number, made.settled, CLERK, LATER)
                won[number].add(key)
            except StockTaken:
                lost[number].add(key)
        through.close()

    stores = (Store(desk.store.path), Store(desk.store.path))
    threads = [Thread(target=race, args=pair) for pair in zip(quotations, stores, strict=True)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    one, other = quotations
    assert won[one] | won[other] == set(keys)
    assert not won[one] & won[other]
    assert (lost[one], lost[other]) == (won[other], won[one])


def test_two_orders_never_have_one_shell_and_the_loser_is_built_a_new_one(workshop: Desk) -> None:
    made = finished(workshop)
    orders = []
    for hours in (0, 49):
        # the first reservation has run out when the second quotation takes the shell
        number = workshop.drafted((S3_ROADSTER, 1))
        take(workshop, number, made.id, LATER + timedelta(hours=hours))
        orders.append(ordered(workshop, number, LATER + timedelta(hours=hours)))
    winner, loser = orders[1], orders[0]
    gate = ("deposit", "")
    then = LATER + timedelta(hours=50)
    for order in (winner, loser):
        promising.say_gate(workshop.store, CLERK, order, 0, gate, LATER.date(), calendar.around, then)
    had = of(workshop, made.id).allocated
    assert had is not None
    assert had.order == winner
    told = ordering.order(workshop.store, CLERK, loser, LATER)
    assert [entry.facts["stock"] for entry in told.history if entry.what == "stock-missed"] == ["S-2026-00001"]
    assert told.shells[0].stock == ""
    assert slots_of(workshop, loser) > slots_of(workshop, winner)


def test_a_promised_shell_that_was_scrapped_before_the_deposit_keeps_no_deposit_out(workshop: Desk) -> None:
    made, number = finished(workshop), workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    order = ordered(workshop, number)
    building.say(workshop.store, INSPECTOR, made.shell, X, "It fell off the trolley.", LATER)
    through(workshop, order)
    told = ordering.order(workshop.store, CLERK, order, LATER)
    assert [entry.facts["stock"] for entry in told.history if entry.what == "stock-missed"] == ["S-2026-00001"]
    assert (told.shells[0].stock, len(slots_of(workshop, order))) == ("", 1)


def test_there_is_nothing_to_allocate_to_a_shell_that_the_order_has_not(workshop: Desk) -> None:
    made, order = finished(workshop), ordered(workshop, workshop.drafted((S3_ROADSTER, 1)))
    with pytest.raises(NotFound):
        allocating.allocate(workshop.store, CLERK, order, 2, made.id, calendar.around, LATER)


def test_given_up_by_hand_it_is_free_and_the_order_takes_a_slot_of_its_own(workshop: Desk) -> None:
    made, number = finished(workshop), workshop.drafted((S3_ROADSTER, 1))
    order = ordered(workshop, number)
    through(workshop, order)
    own = slots_of(workshop, order)
    allocating.allocate(workshop.store, CLERK, order, 1, made.id, calendar.around, LATER)
    # it was framed before its day, and had no room to make for the order
    assert (own, slots_of(workshop, order)) == ([date(2026, 11, 10)], [date(2026, 11, 10)])
    allocating.give_up(workshop.store, CLERK, made.id, calendar.around, LATER)
    assert (of(workshop, made.id).state(LATER), slots_of(workshop, order)) == (StockState.FREE, own)
    assert ordering.order(workshop.store, CLERK, order, LATER).shells[0].state is ShellState.PLANNED


def test_an_order_gets_no_shell_that_cannot_become_what_it_was_promised(workshop: Desk) -> None:
    made = finished(workshop, EUROPE)
    order = ordered(workshop, workshop.drafted((S3_ROADSTER, 1)))
    through(workshop, order)
    with pytest.raises(StockMisfit) as misfit:
        allocating.allocate(workshop.store, CLERK, order, 1, made.id, calendar.around, LATER)
    assert misfit.value.facts["why"] == "stock-misfit-kept"
    assert "market" in misfit.value.facts["options"]
    confirm(workshop, order)
    waiting = for_stock(workshop)
    with pytest.raises(StockUnready) as unready:
        allocating.allocate(workshop.store, CLERK, order, 1, waiting.id, calendar.around, LATER)
    assert unready.value.facts["why"] == "stock-not-released"


def test_a_rejected_shell_from_stock_is_replaced_by_a_new_one_with_the_history_of_both(workshop: Desk) -> None:
    made, number = released(workshop, S3_ROADSTER, "sub-assembly"), workshop.drafted((S3_ROADSTER, 1))
    take(workshop, number, made.id)
    order = ordered(workshop, number)
    through(workshop, order)
    confirm(workshop, order)
    building.say(workshop.store, INSPECTOR, made.shell, X, "The jig slipped.", LATER)
    new = building.replace(workshop.store, MANAGER, made.shell, calendar.around, LATER)
    kitting.all_present(workshop.store, LEAD, new, LATER)
    building.release(workshop.store, LEAD, new, LATER)
    (shell,) = ordering.order(workshop.store, CLERK, order, LATER).shells
    assert (shell.serial, [one.serial for one in shell.replaced]) == ("S-2026-00002", ["S-2026-00001"])


def test_a_tool_that_breaks_names_the_stock_that_it_stops(workshop: Desk) -> None:
    made = released(workshop, S3_ROADSTER, "sub-assembly")
    follows = consequences.consequences(workshop.store, "roadster-deck", ToolCondition.DOWN, LATER)
    assert [one.order.number for one in follows.stopped] == [made.number]


def test_by_hand_the_order_s_page_offers_what_can_become_its_shell_with_what_it_would_change(workshop: Desk) -> None:
    order = ordered(workshop, workshop.drafted((S3_ROADSTER, 1)))
    made, half, far = finished(workshop), released(workshop, EUROPE), finished(workshop, EUROPE)
    offered = (workshop.store, CLERK, order, 1, calendar.around, LATER)
    found = offering.offers(*offered)
    assert [one.shell.stock.id for one in found] == [made.id, half.id]
    assert far.id not in [one.shell.stock.id for one in found]
    assert (found[0].conversion.changed, found[0].ready, found[0].asks) == ((), LATER.date(), False)
    changed = {change.option: (change.has, change.wanted) for change in found[1].conversion.changed}
    assert changed["market"] == ("europe", "home")
    take(workshop, workshop.drafted((S3_ROADSTER, 1)), made.id)
    assert [one.shell.stock.id for one in offering.offers(*offered)] == [half.id]  # held for somebody else
    assert found[1].asks
    allocating.allocate(workshop.store, MANAGER, order, 1, half.id, calendar.around, LATER, may_approve=True)
    with pytest.raises(StockUnready) as stands:
        offering.offers(*offered)
    assert stands.value.facts["why"] == "stock-seat-built"


def test_given_by_hand_after_the_confirmation_it_goes_back_until_something_is_done_to_it(workshop: Desk) -> None:
    made, number = released(workshop, S3_ROADSTER, "sub-assembly"), workshop.drafted((S3_ROADSTER, 1))
    order, then = ordered(workshop, number), LATER + timedelta(hours=1)
    through(workshop, order)
    confirm(workshop, order)
    allocating.allocate(workshop.store, CLERK, order, 1, made.id, calendar.around, then)
    given = of(workshop, made.id)
    assert (given.state(then), given.returnable) == (StockState.SOLD, True)
    allocating.give_up(workshop.store, CLERK, made.id, calendar.around, then)
    assert (of(workshop, made.id).state(then), len(slots_of(workshop, order))) == (StockState.FREE, 1)

    allocating.allocate(workshop.store, CLERK, order, 1, made.id, calendar.around, then)
    sign(workshop, made.shell, "framing")
    assert not of(workshop, made.id).returnable
    with pytest.raises(StockUnready) as sold:
        allocating.give_up(workshop.store, CLERK, made.id, calendar.around, then)
    assert sold.value.facts["why"] == "stock-sold"
