"""What keeps lists quick however much lies behind: none reads a whole table, and what is found by is kept up to date.

How long it takes with a hundred thousand quotations is measured (`make bench`); here it is held how it is asked.
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Iterator
from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest

from app.domain.asking.people import Person
from app.domain.paging import Page
from app.domain.quotations.approval import Stage
from app.domain.quotations.quotation import Reply, Standing
from app.services.customers import erasing, knowing, merging
from app.services.letters import chasing
from app.services.money import accounts
from app.services.orders import ordering
from app.services.planning import foreseeing
from app.services.quotations import approving, elsewhere, enquiring, quoting, requesting, settling
from app.store import retention
from app.store.migrations import m0013_growth
from app.store.sought import Where, narrow
from tests.app.desk import BAYOU, CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

TURN = 1_795_491_600_000_000_000


def in_state(standing: Standing, who: Person, text: str) -> Callable[[Desk], Any]:
    return lambda d: quoting.quotations(d.store, who, NOW, standing=standing, text=text)


#: What is asked, and the index or table along which it may walk: in its order, until a page is full.
LISTS: dict[str, tuple[Callable[[Desk], Any], str]] = {
    "quotations": (lambda d: quoting.quotations(d.store, CLERK, NOW), "quotations_by_turn"),
    "… further on": (lambda d: quoting.quotations(d.store, CLERK, NOW, after=TURN), ""),
    "… of a dealer": (lambda d: quoting.quotations(d.store, BAYOU, NOW), ""),
    "… found": (lambda d: quoting.quotations(d.store, CLERK, NOW, text="fenn", after=TURN), "quotations_sought"),
    "… found by a dealer": (lambda d: quoting.quotations(d.store, BAYOU, NOW, text="fenn"), "quotations_sought"),
    **{
        f"… {standing.value} {who.name} {text}": (in_state(standing, who, text), "quotations_sought")
        for standing in Standing
        for who in (CLERK, BAYOU)
        for text in ("", "fenn")
    },
    "enquiries": (lambda d: enquiring.find_enquiries(d.store, CLERK, NOW), "enquiries_by_turn"),
    "enquiries of a dealer": (lambda d: enquiring.find_enquiries(d.store, BAYOU, NOW), ""),
    "enquiries found": (lambda d: enquiring.find_enquiries(d.store, CLERK, NOW, "fenn"), "enquiries_sought"),
    "customers": (lambda d: knowing.find_customers(d.store, CLERK, NOW), "customers"),
    "customers of a dealer": (lambda d: knowing.find_customers(d.store, BAYOU, NOW), ""),
    "customers found": (lambda d: knowing.find_customers(d.store, CLERK, NOW, "fenn"), "customers_sought"),
    "orders": (lambda d: ordering.orders(d.store, CLERK), "orders"),
    "orders of a dealer": (lambda d: ordering.orders(d.store, BAYOU), "orders_sought"),
    "orders found": (lambda d: ordering.orders(d.store, CLERK, text="fenn"), "orders_sought"),
    "work to come": (lambda d: foreseeing.work_to_come(d.store, NOW), "last_out"),
    "work to come found": (lambda d: foreseeing.work_to_come(d.store, NOW, text="fenn"), "out_sought"),
    "approvals": (lambda d: approving.approvals(d.store, MANAGER, NOW), "approval_stages"),
    "approvals waiting": (lambda d: approving.approvals(d.store, MANAGER, NOW, stage=Stage.WAITING), ""),
    "approvals of a dealer": (lambda d: approving.approvals(d.store, BAYOU, NOW), ""),
    "requests": (lambda d: requesting.requests(d.store, CLERK), "requests"),
    "requests further on": (lambda d: requesting.requests(d.store, CLERK, after=(True, 9)), ""),
    "requests of a dealer": (lambda d: requesting.requests(d.store, BAYOU, waiting=True), "requests"),
    "to chase": (lambda d: chasing.to_chase(d.store, CLERK, NOW), ""),
    "to chase, lapsed": (lambda d: chasing.to_chase(d.store, CLERK, NOW, lapsed=True), ""),
    "to chase, a dealer's": (lambda d: chasing.to_chase(d.store, BAYOU, NOW, after=("2026", 7)), ""),
    "about to lapse": (lambda d: foreseeing.about_to_lapse(d.store, NOW), ""),
    "a car elsewhere": (lambda d: elsewhere.donor_elsewhere(d.store, CLERK, "T3-12044", NOW), ""),
    "proposed for erasing": (lambda d: erasing.retention_proposals(d.store, NOW), ""),
}

#: Of what is in date there is never much: it is picked out, then put in order.
FEW = re.compile("standing = 'issued' AND quotations.valid_until > |json_extract|donors.series = ")


def asked_of(desk: Desk, ask: Callable[[Desk], Any]) -> list[str]:
    """Every question put to the database, as it was put."""
    asked: list[str] = []
    with desk.store.reading() as db:
        db.conn.set_trace_callback(asked.append)
        ask(desk)
        db.conn.set_trace_callback(None)
    return [sql for sql in asked if sql.lstrip().startswith("SELECT") and "_sought'" not in sql]


def plan(desk: Desk, sql: str) -> list[str]:
    with desk.store.reading() as db:
        try:
            return [row["detail"] for row in db.execute(f"EXPLAIN QUERY PLAN {sql}")]
        except sqlite3.OperationalError:  # what an index of texts asks itself
            return []


#: Tables of which a desk has a handful, whatever is behind it; and the texts where the index has picked some out.
SMALL = r"SCAN (books|tool_states|retentions|person|dealers|firm|trade_terms|json_each|\(|CONSTANT|\w+ VIRTUAL .*M)"


def faults(desk: Desk, name: str) -> Iterator[str]:
    """Every step by which the list reads more than it shows."""
    ask, walked = LISTS[name]
    for sql in asked_of(desk, ask):
        for step in plan(desk, sql):
            walks = re.match(SMALL, step) or (walked and re.search(rf"\b{walked}\b", step))
            if step.startswith("SCAN") and not walks:
                yield f"{name}: {step}: {sql}"
            if "TEMP B-TREE FOR ORDER BY" in step and "LIMIT" in sql and not FEW.search(sql):
                yield f"{name}: {step}: {sql}"


def test_no_list_reads_a_whole_table(worked_desk: Desk) -> None:
    with worked_desk.store.writing() as db:
        retention.keep_for(db, 12, "piers", NOW)
    found = [fault for name in LISTS for fault in faults(worked_desk, name)]
    assert not found, "\n".join(found)


def test_reading_a_whole_table_would_be_noticed(worked_desk: Desk) -> None:
    with worked_desk.store.writing() as db:
        db.execute("DROP INDEX quotations_by_turn")
    assert len(list(faults(worked_desk, "quotations"))) == 2


@pytest.fixture
def worked_desk(desk: Desk) -> Desk:
    """Everything that moves what a list is walked or found by: issued, revised, accepted, renamed, merged, erased."""
    kept, gone, lost = (
        desk.drafted((S3_ROADSTER, 1), wish=desk.wish(name)) for name in ("Ada Fenn", "Ida Fenn", "Jo Bell")
    )
    theirs = desk.drafted((S3_ROADSTER, 1), who=LINDENHOF, wish=desk.wish("Emil Frost"), price_list="EUR")
    for number in (kept, gone, lost):
        desk.issue(number)
    revision = desk.revision(kept)
    settling.accept(desk.store, CLERK, kept, "A", Reply(NOW, "Ada Fenn"), NOW, expected=revision.version)
    quoting.next_revision(desk.store, CLERK, gone, NOW + timedelta(hours=1))
    people = {one.kept.customer.name: one.kept for one in knowing.find_customers(desk.store, CLERK, NOW).rows}
    ada, ida, jo = (people[name] for name in ("Ada Fenn", "Ida Fenn", "Jo Bell"))
    merging.merge(desk.store, CLERK, ada.id, ida.id, (), NOW, expected=ada.version, other_expected=ida.version)
    told = erasing.outlook(desk.store, MANAGER, jo.id)
    erasing.erase(desk.store, MANAGER, jo.id, "asked for", told.seen, NOW)
    enquiry = enquiring.find_enquiries(desk.store, LINDENHOF, NOW).rows[0]
    wish = desk.wish("Emil Rauhreif")
    enquiring.edit_enquiry(desk.store, LINDENHOF, enquiry.id, wish, NOW + timedelta(days=1), expected=enquiry.version)
    assert theirs
    return desk


def test_what_is_found_by_is_as_if_it_were_written_anew(worked_desk: Desk) -> None:
    with worked_desk.store.reading() as db:
        for index in m0013_growth.EVERY:
            kept = db.execute(f"SELECT rowid, text, dealer, standing FROM {index.name} ORDER BY 1").fetchall()
            anew = db.execute(f"{index.told()} ORDER BY 1").fetchall()
            assert [tuple(row) for row in kept] == [tuple(row) for row in anew], index.name
            assert kept, index.name


def test_what_a_list_is_walked_along_is_as_if_it_were_written_anew(worked_desk: Desk) -> None:
    with worked_desk.store.writing() as db:
        tables = ("last_out", "approval_stages", "customers_still")
        kept = {table: sorted(map(tuple, db.execute(f"SELECT * FROM {table}").fetchall())) for table in tables}
        m0013_growth.let_go(db.conn)
        for table in (*tables, *(index.name for index in m0013_growth.EVERY)):
            db.execute(f"DELETE FROM {table}")
        m0013_growth.keep(db.conn)
        anew = {table: sorted(map(tuple, db.execute(f"SELECT * FROM {table}").fetchall())) for table in tables}
    assert kept == anew
    assert len(kept["customers_still"]) == 1  # who said yes, who was merged and who was erased are proposed no more


def test_whoever_changed_something_last_is_on_top_and_no_page_leaves_anything_out(desk: Desk) -> None:
    numbers = [desk.drafted((S3_ROADSTER, 1), at=NOW + timedelta(minutes=minute)) for minute in range(5)]
    first = quoting.quotations(desk.store, CLERK, NOW, size=2)
    assert [row.number for row in first.rows] == [numbers[4], numbers[3]]
    desk.issue(numbers[0], at=NOW + timedelta(hours=1))  # moves to the top while somebody reads on
    shown = [row.number for page in pages_of(desk, first) for row in page.rows]
    assert shown == [numbers[4], numbers[3], numbers[2], numbers[1]]
    assert quoting.quotations(desk.store, CLERK, NOW, size=2).rows[0].number == numbers[0]


def pages_of(desk: Desk, page: Page[Any]) -> Iterator[Page[Any]]:
    while True:
        yield page
        if page.next is None:
            return
        page = quoting.quotations(desk.store, CLERK, NOW, after=int(page.next[0]), size=2)


def test_two_of_one_moment_have_each_a_place(desk: Desk) -> None:
    for _ in range(3):
        desk.take_down()
    with desk.store.reading() as db:
        turns = [row[0] for row in db.execute("SELECT turn FROM enquiries ORDER BY id")]
    assert all(later - earlier == 1 for earlier, later in pairwise(turns))
    assert turns[0] == int(NOW.timestamp()) * 10**9


@pytest.mark.parametrize("text", ["f", "fe", "fen", "fenn", "da f", "e 2", "00001"])
def test_a_word_of_any_length_is_found_wherever_it_stands(desk: Desk, text: str) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish("Ada Fenn"))
    desk.drafted((S3_ROADSTER, 1), wish=desk.wish("Moll Bright"))
    for standing in (None, Standing.DRAFT):
        found = quoting.quotations(desk.store, CLERK, NOW, standing=standing, text=text).rows
        assert number in [row.number for row in found]
        assert len(found) == (2 if text == "e 2" else 1)
    desk.issue(number)
    found = quoting.quotations(desk.store, CLERK, NOW, standing=Standing.ISSUED, text=text).rows
    assert [row.number for row in found] == [number]


def test_signs_of_the_index_s_own_language_are_only_signs() -> None:
    where = Where()
    narrow(where, "quotations_sought", ['a"b OR text'], dealer='x" OR "y', standing="issued")
    assert where.facts == ['text : "a""b OR text" AND dealer : "=x"" OR ""y=" AND standing : "iss"']


def test_an_order_in_a_list_stands_as_on_its_own_page(worked_desk: Desk) -> None:
    rows = ordering.orders(worked_desk.store, CLERK).rows
    opened = accounts.open_order(worked_desk.store, CLERK, rows[0].number, NOW)
    assert accounts.accounts_of(worked_desk.store, rows) == {rows[0].number: opened.account}


def test_of_an_erased_name_no_piece_is_left_in_what_is_found_by(desk: Desk) -> None:
    number = desk.take_down(wish=desk.wish("Zyxo Fenn")).customer.id
    desk.take_down(wish=desk.wish("Zara Fenn"))
    assert number is not None
    assert b"zyx" in written(desk)
    erasing.erase(desk.store, MANAGER, number, "asked for", erasing.outlook(desk.store, MANAGER, number).seen, NOW)
    assert b"zyx" not in written(desk)
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "zara").rows) == 1


def written(desk: Desk) -> bytes:
    """The very bytes of the database and of its log of writes."""
    log = desk.store.path.with_name(f"{desk.store.path.name}-wal")
    return desk.store.path.read_bytes() + (log.read_bytes() if log.exists() else b"")
