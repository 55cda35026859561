"""The demo's history is one that could have happened: what waits for something else comes after it, and nothing ahead.

The rules are the floor's own, and common practice of an order desk: no work before the order is confirmed, no
confirmation before the deposit, nothing leaves before it is billed and paid.
"""

from __future__ import annotations

import shutil
from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise
from pathlib import Path

import pytest

from app.domain.floor.shell import Deed, barred
from app.services.despatch import leaving
from app.services.floor import finding
from app.services.floor.finding import FoundShell
from app.store.db import Store
from demo.building import IMOGEN
from tests.support.product import NOW

LOADED = datetime.fromisoformat(NOW)

#: Each shell's order, as it stands.
OF = """
WITH of AS (
  SELECT shells.id AS shell, bases.order_id, bases.revision, orders.made_at, orders.number FROM shells
  JOIN order_lines ON order_lines.id = shells.order_line JOIN order_bases AS bases ON bases.id = order_lines.basis
  JOIN orders ON orders.id = bases.order_id
)
"""

#: What happened → shell and when, as often as it happened.
HAPPENED = {
    "issued": "SELECT shell, issued_at AS at FROM of JOIN revisions ON revisions.id = revision",
    "accepted": "SELECT shell, at FROM of JOIN revision_acts AS act ON act.revision = of.revision AND act = 'accepted'",
    "ordered": "SELECT shell, made_at AS at FROM of",
    "first paid": "SELECT shell, min(at) AS at FROM of JOIN payments USING (order_id) GROUP BY shell",
    "paid": "SELECT shell, at FROM of JOIN payments USING (order_id)",
    "deposit dated": "SELECT shell, at FROM of JOIN gate_days USING (order_id) WHERE gate = 'deposit'",
    "signed": "SELECT shell, at FROM of JOIN gate_days USING (order_id) WHERE gate = 'specification'",
    "confirmed": (
        "SELECT shell, min(told.at) AS at FROM of JOIN order_bases AS basis ON basis.order_id = of.order_id "
        "JOIN confirmations AS told ON told.basis = basis.id GROUP BY shell"
    ),
    "kit checked": "SELECT shell, at FROM kit_checks",
    "sheet drawn": "SELECT shell, at FROM sheet_revisions",
    "welded": "SELECT shell, at FROM welds",
    "conceded": "SELECT shell, at FROM concessions",
    "sent back": "SELECT shell, at FROM rework",
    "change noted": "SELECT shell, at FROM change_notes",
    "change signed": "SELECT shell, act.at FROM change_note_acts AS act JOIN change_notes ON change_notes.id = note",
    "read": "SELECT shell, at FROM readings",
    "looked at in metal": "SELECT shell, at FROM verdicts WHERE phase = 'metal'",
    "looked at in its coat": "SELECT shell, at FROM verdicts WHERE phase = 'coated'",
    "packed": "SELECT shell, at FROM packings",
    "despatched": "SELECT shell, at FROM despatches",
    **{deed.value: f"SELECT shell, at FROM shell_deeds WHERE deed = '{deed.value}'" for deed in Deed},
}

#: All that is on the left was over when the first of what is on the right happened.
BEFORE = (
    ("issued", "accepted"),
    ("accepted", "ordered"),
    ("ordered", "first paid"),
    ("first paid", "deposit dated"),
    ("deposit dated", "confirmed"),
    ("signed", "confirmed"),
    ("confirmed", "kit checked"),
    ("kit checked", "released"),
    ("confirmed", "released"),
    ("confirmed", "change noted"),
    ("change noted", "change signed"),
    ("released", "sheet drawn"),
    ("released", "welded"),
    ("released", "conceded"),
    ("released", "sent back"),
    ("released", "read"),
    ("looked at in metal", "looked at in its coat"),
    ("done", "packed"),
    ("looked at in its coat", "packed"),
    ("packed", "despatched"),
)


@pytest.fixture(scope="module")
def whole(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The whole demo, the year of orders and all that the workshop did."""
    store = Store(shutil.copytree(loaded, tmp_path_factory.mktemp("whole") / "data") / "desk.sqlite3")
    yield store
    store.close()


@pytest.fixture(scope="module")
def happened(whole: Store) -> dict[str, dict[int, list[datetime]]]:
    """What happened → shell → when."""
    found: dict[str, dict[int, list[datetime]]] = {what: defaultdict(list) for what in HAPPENED}
    with whole.reading() as db:
        for what, sql in HAPPENED.items():
            for shell, at in db.execute(f"{OF} {sql}").fetchall():
                found[what][shell].append(datetime.fromisoformat(at))
    return found


@pytest.fixture(scope="module")
def shells(whole: Store) -> tuple[FoundShell, ...]:
    with whole.reading() as db:
        every = (one for order in finding.every_confirmed(whole, db, LOADED) for one in finding.each_of(order))
        return tuple(one for one in every if one.shell.deeds)


@pytest.mark.parametrize(("first", "then"), BEFORE)
def test_what_waits_for_something_comes_after_it(
    happened: dict[str, dict[int, list[datetime]]], first: str, then: str
) -> None:
    both = happened[first].keys() & happened[then].keys()
    assert both, f"the demo shows nothing {first} and {then}"
    late = {shell: (max(happened[first][shell]), min(happened[then][shell])) for shell in both}
    assert {shell: times for shell, times in late.items() if times[0] > times[1]} == {}


@pytest.mark.parametrize(("needs", "what"), [("confirmed", "released"), ("deposit dated", "confirmed")])
def test_nothing_is_done_without_what_it_needs(
    happened: dict[str, dict[int, list[datetime]]], shells: tuple[FoundShell, ...], needs: str, what: str
) -> None:
    ordered = {one.shell.id for one in shells if one.whole.stock is None}
    assert (happened[what].keys() & ordered) - happened[needs].keys() == set()


def test_nothing_has_happened_that_is_still_to_come(happened: dict[str, dict[int, list[datetime]]]) -> None:
    ahead = {what: max(max(times) for times in shells.values()) for what, shells in happened.items() if shells}
    assert {what: at for what, at in ahead.items() if at > LOADED} == {}


def test_each_deed_on_the_floor_was_one_that_the_floor_allows_then(shells: tuple[FoundShell, ...]) -> None:
    assert len(shells) >= 15
    for one in (found.shell for found in shells):
        for at, deed in enumerate(one.deeds):
            assert barred(deed.deed, deed.stage, one.deeds[:at], one.route) is None, (one.serial, deed)
        for before, after in pairwise(one.deeds):
            assert before.at <= after.at, (one.serial, before, after)


def test_serials_are_given_in_the_order_of_the_releases(shells: tuple[FoundShell, ...]) -> None:
    released = sorted((one.shell.deeds[0].at, one.shell.serial or "") for one in shells)
    assert [serial for _, serial in released] == sorted(serial for _, serial in released)


def test_a_stage_is_done_once_all_its_welds_have_their_welders(whole: Store, shells: tuple[FoundShell, ...]) -> None:
    with whole.reading() as db:
        for one in shells:
            signed = {zone.zone.id: zone for zone in finding.zones_of(db, one)}
            done = {deed.stage: deed.at for deed in one.shell.deeds if deed.deed is Deed.DONE}
            for zone in (each for each in signed.values() if each.stage in done):
                assert zone.welds, (one.shell.serial, zone.zone.id)
                assert min(weld.at for weld in zone.welds) <= done[zone.stage], (one.shell.serial, zone.zone.id)


def test_a_shell_is_read_before_the_verdict_that_rests_on_it(whole: Store) -> None:
    sql = """
    SELECT count(*), sum(first > verdicts.at) FROM verdicts
    JOIN (SELECT shell, min(at) AS first FROM readings GROUP BY shell) USING (shell)
    """
    with whole.reading() as db:
        count, wrong = db.execute(sql).fetchone()
    assert (count > 0, wrong) == (True, 0)


def test_what_has_left_was_billed_and_paid_before(whole: Store, happened: dict[str, dict[int, list[datetime]]]) -> None:
    assert happened["despatched"]
    for shell, (left, *_) in happened["despatched"].items():
        assert leaving.of_shell(whole, IMOGEN, shell, LOADED).standing.open == 0
        assert max(happened["paid"][shell]) <= left
        with whole.reading() as db:
            (billed,) = db.execute(
                f"{OF} SELECT max(at) FROM documents WHERE kind = 'balance' "
                "AND order_id = (SELECT order_id FROM of WHERE shell = ?)",
                [shell],
            ).fetchone()
        assert datetime.fromisoformat(billed) <= left
