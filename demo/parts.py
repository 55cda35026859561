"""The demo's customers' parts: those of shells in the shop passed; of those to come one failed, one is just here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from decimal import Decimal

from app import calendar
from app.domain.part import Finding, PartAct, Verdict, length_of
from app.domain.quotations.photograph import Shows
from app.services.parts import taking_in
from app.services.parts.taking_in import OrderedPart
from app.store import parts as kept
from app.store import slots
from app.store.db import Store
from demo import customers as c
from demo.building import SINCE, confirm
from demo.people import PERSON
from demo.photographs import picture
from demo.steps import Accepted, Issued, Job, Paid, Shells
from demo.work import HERE, IMOGEN, NELL, OWN_TUNNEL, VAN

TOMASZ, OONA = (PERSON[name] for name in ("tomasz", "oona"))

#: Days ahead in which what is to come is looked for.
AHEAD = 150
#: A part passed so many days before its shell came in: beside the sub-assembly a tunnel takes fifteen working days.
BEFORE = 30

WHY = "Rust from inside along the left flange: three holes, the largest as wide as a thumb."


#: Ordered with parts that are still to come, after the year's orders: whatever those took of the shop stays theirs.
SENT = (
    Job(26, IMOGEN, c.WILFRED, "T1-06120", "GBP", HERE, (Shells(f"s1 home roadster {OWN_TUNNEL} {VAN}"),),
        (Issued(1), Accepted(4, "Has cut the tunnel out already."), Paid(6))),
    Job(25, IMOGEN, c.MARJORY, "T2-05930", "GBP", HERE, (Shells(f"s2 home coupe {VAN}"),),
        (Issued(1), Accepted(5), Paid(7))),
    Job(24, NELL, c.HOLLIN_LANE, "", "GBP", HERE, (Shells(f"s1 home roadster {OWN_TUNNEL}"),),
        (Issued(1), Accepted(3), Paid(8))),
)  # fmt: skip


def receive(store: Store, now: datetime) -> None:
    """Before anything is released: a shell waits for its parts."""
    in_shop: list[tuple[date, OrderedPart]] = []
    to_come: list[tuple[date, OrderedPart]] = []
    for one in _parts(store, now):
        with store.reading() as db:
            had = slots.promised(db, one.seat)
        if had is not None:
            begun = min(step.start for step in had.promise.steps) <= now.date()
            (in_shop if begun else to_come).append((had.promise.slot, one))
    for slot, one in in_shop:
        before = datetime.combine(slot, now.timetz()) - timedelta(days=BEFORE)
        came = max(before, one.order.bases[0].at + timedelta(hours=1))
        _take_in(store, one, came, "Well packed.")
        _judge(store, one, came, passed=True)
    own = [one for _, one in to_come if one.tag.rule in ("P1", "P4")]
    _to_come(store, sorted(own, key=lambda one: one.order.id), now)


def _parts(store: Store, now: datetime) -> Iterator[OrderedPart]:
    today = now.date()
    with store.reading() as db:
        seats = slots.visiting(db, today - timedelta(days=SINCE), today + timedelta(days=AHEAD))
    for number in dict.fromkeys(seat.number for seat in seats):
        yield from taking_in.parts_of(store, IMOGEN, number, calendar.around, now)


def _to_come(store: Store, parts: Sequence[OrderedPart], now: datetime) -> None:
    """The first failed three days ago; the second came this morning; nobody has seen the others."""
    for number in dict.fromkeys(one.order.number for one in parts):
        confirm(store, number)
    for one in parts[:1]:
        came = now - timedelta(days=3)
        _take_in(store, one, came, "On a pallet, in an old blanket.")
        for said in ("Left flange, rust through", "From below"):
            sent = picture(Shows.PART, f"{one.tag.rule} {said}")
            taking_in.add_photograph(store, TOMASZ, one.tag, sent, said, came)
        _judge(store, one, came, passed=False)
        taking_in.act(store, TOMASZ, one.tag, PartAct.TAGGED, came.date(), "", came)
        taking_in.act(store, TOMASZ, one.tag, PartAct.KEPT, came.date(), "Rack 4, top", came)
    for one in parts[1:2]:
        _take_in(store, one, now - timedelta(hours=2), "In a crate of its own.")


def _take_in(store: Store, one: OrderedPart, at: datetime, note: str) -> None:
    taking_in.arrive(store, TOMASZ, one.tag, at.date(), note, at)


def _judge(store: Store, one: OrderedPart, at: datetime, *, passed: bool) -> None:
    """Nobody can sign yet: the people are added last, and their codes with them."""
    found = tuple(_found(length_of(limit)) for limit in one.limits)
    findings = found if passed else (Finding(False), *found[1:])
    verdict = Verdict(
        passed, findings, "" if passed else WHY, at.date(), at, TOMASZ.name, OONA.name, one.order.revision.book or 0
    )
    with store.writing() as db:
        arrival = taking_in.own_part(store, db, TOMASZ, one.tag, at).last
        assert arrival is not None
        kept.judge(db, arrival.id, verdict)


def _found(length: Decimal | None) -> Finding:
    """A little within the limit."""
    return Finding(True) if length is None else Finding(True, length if length > 50 else length - Decimal("0.6"))
