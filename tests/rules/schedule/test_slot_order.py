"""A better order of slots, held against every order there is, each one planned anew, slot by slot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.schedule.capacity import Shop, Visit, shop, slots_used, week_of
from rules.schedule.days import WorkingDays, route_days
from rules.schedule.promise import Promise, Wanted, dated, visits_of
from rules.schedule.slot_order import Merit, Seated, better_order
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()
#: No holiday and no closure, so that a day can be counted on the fingers.
PLAIN = WorkingDays()
TODAY = date(2027, 1, 4)
FRAMING = BOOK.stages[1]

SHELL = st.sampled_from(
    (
        {"body": "roadster"},
        {"body": "coupe"},
        {"body": "coupe", "finish": "painted"},
        {"body": "roadster", "finish": "painted"},
    )
)
#: Working days after today on which a slot may lie, close enough for weeks to be full.
SLOTS = st.lists(st.integers(5, 17), min_size=2, max_size=5, unique=True)


def on(day: int) -> date:
    return PLAIN.add(TODAY, day)


def seated(made: dict[str, str], slot: date, earliest: date = TODAY, taken: Sequence[Visit] = ()) -> Seated:
    """A shell that was promised for that slot with those before it in the shop."""
    wanted = Wanted(route_days(BOOK, made, NO_DONOR), (), {"framing": made["body"]}, slot)
    return Seated(wanted, dated(BOOK, wanted, shop(BOOK, PLAIN, taken), TODAY), earliest)


def row(kinds: str, slots: Sequence[int]) -> list[Seated]:
    """R is a roadster, C a coupé; in order of deposit."""
    bodies = [{"R": "roadster", "C": "coupe"}[kind] for kind in kinds]
    return [seated({"body": body}, on(slot)) for body, slot in zip(bodies, slots, strict=True)]


def kinds_of(shells: Sequence[Seated], merit: Merit | None) -> str:
    assert merit is not None
    return "".join(shells[n].wanted.kinds["framing"][0].upper() for n in merit.order)


@st.composite
def plans(draw: st.DrawFn) -> tuple[list[Seated], list[Visit]]:
    """Shells with their slots, each planned after those before it; the last may be one that stays where it is."""
    slots, taken, found = sorted(draw(SLOTS)), list[Visit](), list[Seated]()
    for slot in slots:
        one = seated(draw(SHELL), on(slot), on(slot - draw(st.integers(0, 12))), taken)
        taken += visits_of(one.promised, one.wanted.kinds)
        found.append(replace(one, promised=_told(one.promised, draw(st.integers(0, 3)))))
    stays = draw(st.booleans()) and len(found) > 2
    fixed = list(visits_of(found[-1].promised, found[-1].wanted.kinds)) if stays else []
    return draw(st.permutations(found[:-1] if stays else found)), fixed


def _told(made: Promise, less: int) -> Promise:
    """Part of the promise's width may have been used up before."""
    return replace(made, ready_by=PLAIN.back(made.ready_by, less))


def every_order(shells: Sequence[Seated], fixed: Sequence[Visit]) -> Iterator[Merit]:
    """Those that keep every promise and fill no week beyond its limit, or beyond what it is."""
    days = sorted(one.promised.slot for one in shells)
    had = [v for one in shells for v in visits_of(one.promised, one.wanted.kinds)]
    before = shop(BOOK, PLAIN, [*fixed, *had])
    for order in permutations(range(len(shells))):
        taken, late = list(fixed), 0
        for n, day in zip(order, days, strict=True):
            one = shells[n]
            made = dated(BOOK, replace(one.wanted, slot=day), shop(BOOK, PLAIN, taken), TODAY)
            if day < one.earliest or made.ready > one.promised.ready_by:
                break
            late += max(0, PLAIN.between(one.promised.ready_by, made.ready_by))
            taken += visits_of(made, one.wanted.kinds)
        else:
            after = shop(BOOK, PLAIN, taken)
            if _fits(after, before):
                yield Merit(_changes(after, days), late, order)


def _changes(full: Shop, days: Sequence[date]) -> int:
    queue = full.loads["framing"].queue
    first, last = queue.index(next(one for one in queue if one[0] == days[0])), len(queue) - 1
    until = next(n for n, one in enumerate(queue) if one[0] == days[-1])
    return sum(one[1] != then[1] for one, then in pairwise(queue[max(first - 1, 0) : min(until + 1, last) + 1]))


def _fits(after: Shop, before: Shop) -> bool:
    used, was = (slots_used(FRAMING, one.loads["framing"].queue) for one in (after, before))
    weeks = [week_of(TODAY) + timedelta(weeks=n) for n in range(-1, 8)]
    alone = all(used.get(w, 0) <= max(3, was.get(w, 0)) for w in weeks)
    pairs = [(w, w + timedelta(weeks=1)) for w in weeks]
    line = FRAMING.per_week * 2 * BOOK.calendar.load_percent / 100 if FRAMING.per_week else 0
    return alone and all(
        sum(used.get(w, 0) for w in pair) <= max(line, sum(was.get(w, 0) for w in pair)) for pair in pairs
    )


@settings(max_examples=40, deadline=None)
@given(plans())
def test_of_all_orders_that_keep_every_promise_none_is_better_than_the_one_proposed(
    plan: tuple[list[Seated], list[Visit]],
) -> None:
    shells, fixed = plan
    found = better_order(BOOK, shells, shop(BOOK, PLAIN, fixed), TODAY)
    assert found.whole
    best = min(every_order(shells, fixed), default=None)
    if best is None or best >= found.now:
        assert (found.best, found.promises) == (None, ())
    else:
        assert found.best == best
        assert [one.slot for one in found.promises] == [
            sorted(shell.promised.slot for shell in shells)[best.order.index(n)] for n in range(len(shells))
        ]
        assert all(one.ready_by <= shell.promised.ready_by for one, shell in zip(found.promises, shells, strict=True))


def test_case_26_six_shells_by_turns_are_put_in_two_groups() -> None:
    """Two weeks of R C R C R C take 8.5 slots with their changeovers; R R R C C C takes 6.5, the planned line 5.1."""
    shells = row("RCRCRC", (5, 7, 9, 10, 12, 14))
    found = better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY)
    assert (found.now.changeovers, found.best and found.best.changeovers) == (5, 1)
    assert (kinds_of(shells, found.now), kinds_of(shells, found.best)) == ("RCRCRC", "RRRCCC")
    for kinds, slots in (("RCRCRC", 8.5), ("RRRCCC", 6.5)):
        assert sum(slots_used(FRAMING, [(on(5 + at), kind) for at, kind in enumerate(kinds)]).values()) == slots


def test_of_orders_with_as_few_changeovers_the_one_that_uses_up_least_of_what_was_promised_is_taken() -> None:
    shells = row("CRC", (5, 7, 12))
    found = better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY)
    assert kinds_of(shells, found.best) == "RCC", "2 days late; C C R would make the roadster 5 days late"
    assert found.best is not None
    assert found.best.late == 2


def test_of_orders_that_are_alike_in_all_else_the_earlier_deposit_comes_first() -> None:
    first, second = row("RR", (7, 5))
    late = [replace(one, promised=_told(one.promised, 2)) for one in (first, second)]
    roomy = [replace(one, promised=replace(one.promised, ready_by=on(60))) for one in late]
    found = better_order(BOOK, roomy, shop(BOOK, PLAIN), TODAY)
    assert (found.now.order, found.best and found.best.order) == ((1, 0), (0, 1))


def test_a_shell_is_never_put_before_what_it_waits_for() -> None:
    shells = row("RCR", (5, 7, 9))
    held = [shells[0], shells[1], replace(shells[2], earliest=on(9))]
    assert kinds_of(shells, better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY).best) == "RRC"
    best = better_order(BOOK, held, shop(BOOK, PLAIN), TODAY).best
    assert best is not None
    assert best.order == (1, 0, 2)


def test_where_every_other_order_breaks_a_promise_none_is_proposed() -> None:
    shells = [replace(one, promised=_told(one.promised, 10)) for one in row("RCRC", (5, 7, 9, 12))]
    assert better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY).best is None


def test_a_search_that_was_cut_short_says_so() -> None:
    shells = row("RCRCRC", (5, 7, 9, 10, 12, 14))
    found = better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY, most=4)
    assert (found.best, found.whole) == (None, False)


def test_an_order_that_leaves_a_shell_only_slots_too_late_for_it_is_not_gone_on_with() -> None:
    """The third keeps its promise in the first slot alone: of six orders, the three shells of one are dated."""
    first, second, tight = row("RRR", (7, 9, 5))
    shells = [first, second, replace(tight, promised=_told(tight.promised, BOOK.calendar.spread))]
    found = better_order(BOOK, shells, shop(BOOK, PLAIN), TODAY, most=4)
    assert (found.now.order, found.best, found.whole) == ((2, 0, 1), None, True)


def test_what_stays_between_two_shells_counts_among_the_changeovers() -> None:
    taken = visits_of(row("C", (8,))[0].promised, {"framing": "coupe"})
    shells = row("RC", (5, 10))
    full = shop(BOOK, PLAIN, taken)
    found = better_order(BOOK, shells, full, TODAY)
    assert (found.now.changeovers, found.best) == (1, None)


def test_an_order_that_puts_a_changeover_into_full_weeks_is_not_proposed() -> None:
    """One changeover instead of two, but it would lie in a week of three shells: 3.5 slots, and the week has 3."""
    stay = [visit for one in row("RR", (5, 17)) for visit in visits_of(one.promised, one.wanted.kinds)]
    shells = row("RRRCR", (19, 12, 7, 14, 16))
    assert better_order(BOOK, shells, shop(BOOK, PLAIN, stay), TODAY).best is None
    stages = (BOOK.stages[0], replace(FRAMING, per_week=Decimal(5)), *BOOK.stages[2:])
    roomy = replace(BOOK, stages=stages)
    found = better_order(roomy, shells, shop(roomy, PLAIN, stay), TODAY)
    assert (found.now.changeovers, found.best and found.best.changeovers) == (2, 1)


def test_a_shell_that_would_wait_for_the_booth_beyond_its_last_day_keeps_its_place() -> None:
    """Three days later the coupé would miss the last week in which the booth takes it; it can't be framed sooner."""
    busy = [Visit("paint", on(25 + 5 * week + n), on(45 + 5 * week + n)) for week in range(4) for n in range(2)]
    roadsters = row("RR", (5, 11))
    painted = {"body": "coupe", "finish": "painted"}
    free, full = ([roadsters[0], seated(painted, on(8), on(8), taken), roadsters[1]] for taken in ((), busy))
    assert kinds_of(free, better_order(BOOK, free, shop(BOOK, PLAIN), TODAY).best) == "RRC"
    assert full[1].promised == free[1].promised
    assert better_order(BOOK, full, shop(BOOK, PLAIN, busy), TODAY).best is None
