"""The demo's work in hand: all there is to see at a desk, consistent, counted back from the day of loading."""

from __future__ import annotations

import re
from collections import Counter
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

import pytest

from app.domain.asking.people import Person, Role
from app.domain.quotations.approval import Stage
from app.domain.quotations.chasing import Kind, Way
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import Quotation, Revision, Standing
from app.services.books import tools
from app.services.letters import chasing
from app.services.quotations import approving, enquiring, handing_out, quoting
from app.services.quotations.quoting import PricedRevision
from app.store.db import Store
from app.wording import knows
from demo.firm import DEALERS, LOST
from demo.loading import load
from demo.people import PERSON
from demo.work import WORK
from rules.answer import Verdict
from rules.model import ToolCondition
from rules.money.countries import COUNTRIES
from tests.demo.conftest import NOW

PIERS = PERSON["piers"]

#: What a desk must have to show.
LEAST = {
    Standing.DRAFT: 5,
    Standing.ISSUED: 10,
    Standing.ACCEPTED: 8,
    Standing.DECLINED: 5,
    Standing.LAPSED: 5,
    Standing.SUPERSEDED: 4,
}


def test_there_are_forty_quotations_and_more_in_every_state(demo: Store) -> None:
    quotations = all_of(demo)
    assert len(quotations) >= 40
    standings = Counter(revision.standing for one in quotations for revision in one.revisions)
    assert {standing: standings[standing] for standing in LEAST if standings[standing] < LEAST[standing]} == {}
    assert set(standings) == set(Standing)


def test_each_dealer_has_a_sign_in_and_work_of_his_own_in_hand(demo: Store) -> None:
    for dealer in DEALERS:
        (person,) = [person for person in PERSON.values() if person.dealer == dealer.id]
        rows = quoting.quotations(demo, person, NOW, size=100).rows
        assert len(rows) >= 5
        assert {row.dealer for row in rows} == {dealer.id}


def test_two_managers_can_sign_in() -> None:
    assert len([person for person in PERSON.values() if person.role is Role.MANAGER]) == 2


def test_the_clerk_quotes_private_customers_of_several_countries(demo: Store) -> None:
    own = [enquiry for enquiry in enquiries_of(demo) if enquiry.dealer is None]
    countries = {enquiry.customer.country for enquiry in own}
    assert len(countries) >= 8
    assert countries <= COUNTRIES


def test_every_issued_revision_comes_to_the_same_again(demo: Store) -> None:
    for quotation, revision, priced in issued_of(demo):
        assert priced.totals == revision.totals, quotation.number
        assert priced.totals is not None
        assert priced.price is not None
        for line, answered, price in zip(revision.lines, priced.answers, priced.price.lines, strict=True):
            assert line.frozen is not None
            assert answered is not None
            assert (answered.answer.settled, price) == (line.frozen.settled, line.frozen.price)


def test_what_is_shown_covers_the_book(demo: Store) -> None:
    """Bodies, series, markets; painted, three in a line, once a part has come, with an approval, on every list."""
    issued = issued_of(demo)
    settled = [line.frozen.settled for _, revision, _ in issued for line in revision.lines if line.frozen]
    every = {"body": 2, "series": 4, "market": 4, "steering": 2, "finish": 2, "suspension": 2, "roof": 2, "packing": 4}
    for option, choices in (every | {"tunnel": 3}).items():
        assert len({one[option] for one in settled}) == choices, option
    assert any(one["finish"] == "painted" and one["delivery"] != "van" for one in settled)
    assert any(line.quantity >= 3 for _, revision, _ in issued for line in revision.lines)
    frozen = [line.frozen for _, revision, _ in issued for line in revision.lines if line.frozen]
    assert {"P1", "P2a", "P3", "P4"} <= {part for one in frozen for part in one.depends.parts}
    assert {"A1", "A2", "A3", "A5"} <= {approval for one in frozen for approval in one.depends.approvals}
    assert Verdict.ONCE in {verdict for one in frozen for verdict in one.verdicts}
    assert {revision.price_list for _, revision, _ in issued} == {"GBP", "EUR", "USD"}
    assert any(revision.totals and not revision.totals.decided for _, revision, _ in issued)
    assert any(revision.extras for _, revision, _ in issued)


def test_one_that_stands_waits_for_an_approval(demo: Store) -> None:
    waiting = [
        quotation.number
        for quotation, revision, _ in issued_of(demo)
        if revision.standing is Standing.ISSUED
        and any(line.frozen and line.frozen.depends.approvals for line in revision.lines)
    ]
    assert waiting


def test_approvals_wait_are_given_and_are_refused(demo: Store) -> None:
    stages = Counter(one.stage for one in approving.approvals(demo, PIERS, NOW).rows)
    assert set(stages) >= {Stage.WAITING, Stage.GRANTED, Stage.REFUSED}


def test_letters_of_every_kind_are_on_record(demo: Store) -> None:
    sendings = [one.sending for each in all_of(demo) for one in chasing.sent(demo, PIERS, each.number, NOW)]
    assert {sending.kind for sending in sendings} == set(Kind)
    assert {sending.way for sending in sendings} == {Way.E_MAIL, Way.POST, Way.TELEPHONE}
    assert any(one.last is not None for one in chasing.to_chase(demo, PIERS, NOW).rows)


def test_drafts_show_what_can_t_be_built_what_is_not_priced_and_what_is_open(demo: Store) -> None:
    told = {
        refusal.slug
        for quotation in all_of(demo)
        for revision in quotation.revisions
        if not revision.issued
        for refusal in quoting.price_revision(demo, PIERS, quotation.number, revision.letter, NOW).refusals
    }
    assert told == {"cannot-be-built", "not-priced", "not-complete"}


def test_a_number_that_is_none_of_ours_is_kept_and_not_established(demo: Store) -> None:
    donors = {one.donor.number_text: one.donor for one in enquiries_of(demo) if one.donor.number_text}
    doubtful = {text for text, donor in donors.items() if not donor.established}
    assert doubtful == {"T1-00250", "T2-21301"}
    assert all(donor.built.said_by is not None for donor in donors.values() if donor.established)


def test_nothing_happens_after_the_day_of_loading_nor_before_the_book(demo: Store) -> None:
    moments = [entry.at for quotation in all_of(demo) for entry in quotation.history]
    assert max(moments) <= NOW
    assert min(moments) > NOW - timedelta(days=120)
    assert moments_in_order(demo)


def test_the_states_are_the_same_whenever_it_is_loaded(
    demo: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Just after midnight, a few days after the clocks went forward."""
    day = datetime(2027, 4, 1, 0, 5, tzinfo=UTC)
    monkeypatch.setattr("app.services.quotations.papering.pdf", lambda *_: b"%PDF-")
    store = Store(tmp_path / "desk.sqlite3")
    load(store, day, jobs=WORK)
    again = Counter(revision.standing for one in all_of(store, day) for revision in one.revisions)
    assert again == Counter(revision.standing for one in all_of(demo) for revision in one.revisions)


def test_the_paper_of_what_stands_is_stored_and_any_other_can_be_had(demo: Store) -> None:
    for quotation, revision, _ in issued_of(demo):
        assert bool(revision.papers) is (revision.standing is Standing.ISSUED), quotation.number
    quotation, revision, _ = next(one for one in issued_of(demo) if one[1].standing is Standing.SUPERSEDED)
    assert handing_out.paper(demo, PIERS, quotation.number, revision.letter, "de", "a4", NOW).startswith(b"%PDF-")


def test_the_code_on_a_paper_leads_to_where_the_demo_is_served(demo: Store) -> None:
    for _, revision, _ in issued_of(demo):
        assert revision.frozen is not None
        assert revision.frozen.imprint is not None
        assert revision.frozen.imprint.address == f"http://127.0.0.1:9999/q/{revision.code}"


def test_nobody_can_be_rung_up_or_written_to() -> None:
    """Ranges kept free for fiction, from memory: Ofcom, Bundesnetzagentur, ARCEP, ComReg, PTS, ACMA, NANPA."""
    fiction = re.compile(
        r"\+44 (1632 960|7700 900) \d{3}|\+49 (30 23125|40 66969|221 4710) \d{3}|\+33 1 99 00 \d\d \d\d"
        r"|\+353 20 91\d \d{4}|\+46 8 465 004 \d\d|\+61 2 5550 \d{4}|\+1 555 555 01\d\d"
    )
    customers = [job.customer for job in WORK]
    assert [one.telephone for one in customers if one.telephone and not fiction.fullmatch(one.telephone)] == []
    assert [one.email for one in customers if one.email and not one.email.endswith(".example")] == []


def test_the_tools_stand_as_the_scenario_says(demo: Store) -> None:
    states = tools.tool_states(demo)
    assert set(states.conditions()) == set(LOST)
    assert all(state.state is ToolCondition.LOST for state in states.states.values())


@cache
def all_of(store: Store, now: datetime = NOW, person: Person = PIERS) -> tuple[Quotation, ...]:
    rows = quoting.quotations(store, person, now, size=500).rows
    return tuple(quoting.quotation(store, person, row.number, now) for row in rows)


@cache
def issued_of(store: Store) -> tuple[tuple[Quotation, Revision, PricedRevision], ...]:
    return tuple(
        (quotation, revision, quoting.price_revision(store, PIERS, quotation.number, revision.letter, NOW))
        for quotation in all_of(store)
        for revision in quotation.revisions
        if revision.issued
    )


def enquiries_of(store: Store) -> tuple[Enquiry, ...]:
    return enquiring.find_enquiries(store, PIERS, NOW, size=500).rows


def moments_in_order(store: Store) -> bool:
    histories = [[entry.at for entry in quotation.history] for quotation in all_of(store)]
    return all(moments == sorted(moments) for moments in histories)


def test_everything_that_was_ever_done_is_told_in_a_sentence(demo: Store) -> None:
    with demo.reading() as db:
        kinds = {row[0] for row in db.execute("SELECT DISTINCT what FROM history")}
    assert sorted(kind for kind in kinds if not knows(f"history.{kind}")) == []
