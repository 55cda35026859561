"""The customer's yes or no: recorded once, in time, by whom it may be, and beside what was issued."""

from __future__ import annotations

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from threading import Barrier

import pytest

from app.domain.asking.people import Person
from app.domain.errors import (
    AnswerStands,
    BadInput,
    ChangedByAnother,
    Conflict,
    KeyReused,
    Lapsed,
    NotFound,
    NotIssued,
)
from app.domain.quotations.quotation import Outcome, Quotation, Reason, Reply, Revision, Standing
from app.services.once import Once
from app.services.quotations import quoting, settling
from tests.app.desk import BAYOU, CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

#: Case 21: issued on 2 November, it is valid to the end of 2 December in London.
IN_TIME = datetime(2026, 12, 2, 23, 40, tzinfo=UTC)
TOO_LATE = datetime(2026, 12, 3, 0, 30, tzinfo=UTC)  # 19:30 on 2 December in New York
TOMORROW = NOW + timedelta(days=1)


def test_a_yes_is_kept_with_who_said_it_when_and_who_wrote_it_down(desk: Desk) -> None:
    number = _out(desk)
    said = Reply(TOMORROW, "Agnes Thornbury", note="By letter.")
    accepted = _accept(desk, number, said, TOMORROW + timedelta(hours=2))
    assert accepted.outcome == Outcome(Standing.ACCEPTED, TOMORROW + timedelta(hours=2), "imogen", said)
    quotation = _quotation(desk, number)
    assert (quotation.standing, quotation.revisions[0].standing) == (Standing.ACCEPTED, Standing.ACCEPTED)
    last = quotation.history[-1]
    assert (last.what, last.by, last.facts["said_by"]) == ("revision-accepted", "imogen", "Agnes Thornbury")


@pytest.mark.parametrize("reason", Reason)
def test_a_no_says_why(desk: Desk, reason: Reason) -> None:
    number = _out(desk)
    said = Reply(TOMORROW, "", reason, "Will ask again in spring.")
    declined = settling.decline(desk.store, CLERK, number, "A", said, TOMORROW, expected=3)
    assert declined.outcome == Outcome(Standing.DECLINED, TOMORROW, "imogen", said)
    assert _quotation(desk, number).standing is Standing.DECLINED
    assert _quotation(desk, number).history[-1].facts["reason"] == reason.value


def test_nothing_else_of_the_revision_changes(desk: Desk) -> None:
    number = _out(desk)
    before = desk.revision(number)
    after = _accept(desk, number)
    changed = {name for name in before.__slots__ if getattr(before, name) != getattr(after, name)}
    assert changed == {"standing", "version", "outcome"}


def test_the_office_may_write_down_later_a_yes_that_came_in_time(desk: Desk) -> None:
    number = _out(desk)
    accepted = _accept(desk, number, Reply(IN_TIME, "Agnes Thornbury"), TOO_LATE + timedelta(hours=9))
    assert accepted.standing is Standing.ACCEPTED


def test_a_yes_that_came_too_late_is_refused_whoever_writes_it_down(desk: Desk) -> None:
    number = _out(desk)
    for who in (CLERK, MANAGER):
        with pytest.raises(Lapsed) as refused:
            _accept(desk, number, Reply(TOO_LATE, "Agnes Thornbury"), TOO_LATE, who)
        assert str(refused.value.facts["day"]) == "2026-12-02"
        assert refused.value.facts["zone"] == "Europe/London"
    assert _quotation(desk, number, TOO_LATE).standing is Standing.LAPSED


def test_a_dealer_s_yes_counts_from_when_he_writes_it_down(desk: Desk) -> None:
    """He speaks for himself: nobody else could say when."""
    number = _out(desk, LINDENHOF)
    with pytest.raises(Lapsed):
        _accept(desk, number, Reply(IN_TIME, "Greta Lindenhof"), TOO_LATE, LINDENHOF)
    assert _accept(desk, number, Reply(TOMORROW, "Greta Lindenhof"), IN_TIME, LINDENHOF).standing is Standing.ACCEPTED


def test_a_lapsed_one_may_still_be_declined(desk: Desk) -> None:
    number = _out(desk)
    settling.decline(desk.store, CLERK, number, "A", Reply(TOO_LATE, "", Reason.DATE), TOO_LATE, expected=3)
    assert _quotation(desk, number, TOO_LATE).standing is Standing.DECLINED


def test_a_draft_can_t_be_answered(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    _refused(desk, number, NotIssued)


def test_an_answer_stays(desk: Desk) -> None:
    number = _out(desk)
    _accept(desk, number)
    assert _refused(desk, number, AnswerStands).facts["why"] == "accepted"
    with pytest.raises(AnswerStands):
        settling.decline(desk.store, CLERK, number, "A", Reply(TOMORROW, "", Reason.PRICE), TOMORROW, expected=4)


def test_what_a_later_revision_superseded_is_no_longer_to_be_had(desk: Desk) -> None:
    number = _out(desk)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    quoting.issue(desk.store, CLERK, number, "B", TOMORROW, expected=1, draw=False)
    assert _refused(desk, number, AnswerStands).facts["why"] == "superseded"
    outcome = desk.revision(number).outcome
    assert outcome == Outcome(Standing.SUPERSEDED, TOMORROW, "imogen")
    settling.accept(desk.store, CLERK, number, "B", Reply(TOMORROW, "A. T."), TOMORROW, expected=2)
    assert [one.standing for one in _quotation(desk, number).revisions] == [Standing.SUPERSEDED, Standing.ACCEPTED]


def test_what_was_declined_can_be_quoted_again_and_stays_declined(desk: Desk) -> None:
    number = _out(desk)
    settling.decline(desk.store, CLERK, number, "A", Reply(TOMORROW, "", Reason.PRICE), TOMORROW, expected=3)
    quoting.next_revision(desk.store, CLERK, number, TOMORROW)
    quoting.issue(desk.store, CLERK, number, "B", TOMORROW, expected=1, draw=False)
    quotation = _quotation(desk, number)
    assert [one.standing for one in quotation.revisions] == [Standing.DECLINED, Standing.ISSUED]
    assert quotation.standing is Standing.ISSUED


def test_a_list_is_narrowed_to_what_was_accepted_or_declined(desk: Desk) -> None:
    accepted, declined = _out(desk), _out(desk)
    _accept(desk, accepted)
    settling.decline(desk.store, CLERK, declined, "A", Reply(TOMORROW, "", Reason.OTHER), TOMORROW, expected=3)
    for standing, number in ((Standing.ACCEPTED, accepted), (Standing.DECLINED, declined)):
        rows = quoting.quotations(desk.store, CLERK, TOO_LATE, standing=standing).rows
        assert [row.number for row in rows] == [number]
    assert quoting.quotations(desk.store, CLERK, TOO_LATE, standing=Standing.LAPSED).rows == ()


@pytest.mark.parametrize(
    ("reply", "fault"),
    [
        (Reply(TOMORROW, " "), ("said_by", "required")),
        (Reply(TOMORROW + timedelta(minutes=1), "A"), ("said_at", "in-the-future")),
        (Reply(NOW - timedelta(minutes=1), "A"), ("said_at", "before-issue")),
        (Reply(TOMORROW, "A" * 201), ("said_by", "too-long")),
        (Reply(TOMORROW, "A", note="A" * 10_001), ("note", "too-long")),
    ],
)
def test_a_reply_that_nobody_can_have_given_is_refused(desk: Desk, reply: Reply, fault: tuple[str, str]) -> None:
    with pytest.raises(BadInput) as refused:
        _accept(desk, _out(desk), reply, TOMORROW)
    assert [(one.path, one.code) for one in refused.value.faults] == [fault]


def test_a_no_without_a_why_is_refused(desk: Desk) -> None:
    with pytest.raises(BadInput) as refused:
        settling.decline(desk.store, CLERK, _out(desk), "A", Reply(TOMORROW), TOMORROW, expected=3)
    assert [(one.path, one.code) for one in refused.value.faults] == [("reason", "required")]


def test_who_has_not_seen_the_last_state_is_told(desk: Desk) -> None:
    with pytest.raises(ChangedByAnother):
        settling.accept(desk.store, CLERK, _out(desk), "A", Reply(TOMORROW, "A"), TOMORROW, expected=2)


def test_another_dealer_s_can_t_be_answered_and_is_as_if_it_were_not_there(desk: Desk) -> None:
    number = _out(desk, LINDENHOF)
    with pytest.raises(NotFound):
        _accept(desk, number, who=BAYOU)
    assert _quotation(desk, number).standing is Standing.ISSUED


def test_the_same_yes_sent_twice_is_one_yes(desk: Desk) -> None:
    number, once = _out(desk), Once("a-key-of-its-own", "imogen", "yes")
    first, again = (_accept(desk, number, once=once) for _ in range(2))
    assert first == again
    assert [entry.what for entry in _quotation(desk, number).history].count("revision-accepted") == 1
    with pytest.raises(KeyReused):
        _accept(desk, number, once=Once("a-key-of-its-own", "imogen", "no"))


def test_of_a_yes_and_a_no_at_once_one_wins_and_the_other_is_told(desk: Desk) -> None:
    number, start = _out(desk), Barrier(2)

    def say(act: object, reply: Reply) -> str:
        start.wait(20)
        try:
            act(desk.store, CLERK, number, "A", reply, TOMORROW, expected=3)  # type: ignore[operator]
        except Conflict:
            return "told"
        return "kept"

    with ThreadPoolExecutor(2) as threads:
        yes = threads.submit(say, settling.accept, Reply(TOMORROW, "A"))
        no = threads.submit(say, settling.decline, Reply(TOMORROW, "A", Reason.PRICE))
        assert sorted((yes.result(), no.result())) == ["kept", "told"]


@pytest.mark.parametrize(
    "act",
    [
        "UPDATE revision_acts SET act = 'declined'",
        "DELETE FROM revision_acts",
        "INSERT OR REPLACE INTO revision_acts (revision, act, at, by, why) VALUES (1, 'declined', '', '', '')",
        "INSERT INTO revision_acts (revision, act, at, by, why) VALUES (2, 'accepted', '', '', '')",
    ],
)
def test_no_statement_changes_an_answer_or_answers_a_draft(desk: Desk, act: str) -> None:
    _accept(desk, _out(desk))
    desk.drafted()
    with pytest.raises(sqlite3.IntegrityError, match=r"only grow|a draft has neither"), desk.store.writing() as db:
        db.execute(act)


def _out(desk: Desk, who: Person = CLERK) -> str:
    """The number of a quotation that is out, at version 3."""
    number = desk.drafted((S3_ROADSTER, 1), who=who, price_list="GBP")
    quoting.issue(desk.store, who, number, "A", NOW, expected=2, draw=False)
    return number


def _accept(
    desk: Desk,
    number: str,
    reply: Reply | None = None,
    at: datetime = TOMORROW,
    who: Person = CLERK,
    once: Once | None = None,
) -> Revision:
    said = reply or Reply(TOMORROW, "Agnes Thornbury")
    return settling.accept(desk.store, who, number, "A", said, at, expected=3, once=once)


def _quotation(desk: Desk, number: str, at: datetime = TOMORROW) -> Quotation:
    return quoting.quotation(desk.store, CLERK, number, at)


def _refused(desk: Desk, number: str, kind: type[Conflict]) -> Conflict:
    with pytest.raises(kind) as refused:
        _accept(desk, number)
    return refused.value
