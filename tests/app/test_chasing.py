"""What is out and unanswered, what suits to be written, and that a person's letter is on record."""

from __future__ import annotations

import sqlite3
from datetime import date, timedelta

import pytest

from app.domain.errors import BadInput, NotFound, NotIssued
from app.domain.quotations.chasing import Kind, Sending, Way
from app.domain.quotations.quotation import Reason, Reply
from app.services.letters import chasing
from app.services.letters.chasing import Chased
from app.services.quotations import approving, quoting, settling
from app.wording import catalogue
from tests.app.desk import BAYOU, CLERK, HOLLIN, MANAGER, NOW, S3_ROADSTER, Desk

DAY = timedelta(days=1)
PLAIN = {**S3_ROADSTER, "delivery": "van"}
RING = {"body": "coupe", "market": "home", "series": "s2", "rear-window": "small", "delivery": "van"}

REMINDED = Sending(Kind.REMINDER, Way.E_MAIL, "agnes@thornbury.example", date(2026, 11, 20), "Dear Agnes …")


def chased(desk: Desk, at: timedelta, *, lapsed: bool = False) -> dict[str, Chased]:
    found = chasing.to_chase(desk.store, CLERK, NOW + at, lapsed=lapsed).rows
    return {one.out.number: one for one in found}


def test_what_lapses_first_comes_first(desk: Desk) -> None:
    later, first = desk.drafted((PLAIN, 1)), desk.drafted((PLAIN, 1))
    desk.issue(first)
    desk.issue(later, at=NOW + DAY)
    found = chased(desk, 20 * DAY)
    assert list(found) == [first, later]
    assert (found[first].pressing.left, found[first].pressing.silent) == (10, 20)  # to the end of 2 December


def test_the_answered_the_drafts_and_the_superseded_are_not_chased(desk: Desk) -> None:
    yes, no, revised = (desk.drafted((PLAIN, 1)) for _ in range(3))
    desk.drafted((PLAIN, 1))
    for number in (yes, no, revised):
        desk.issue(number)
    settling.accept(desk.store, CLERK, yes, "A", Reply(NOW, "Agnes"), NOW, expected=3)
    settling.decline(desk.store, CLERK, no, "A", Reply(NOW, "Agnes", Reason.DATE), NOW, expected=3)
    quoting.next_revision(desk.store, CLERK, revised, NOW)
    desk.issue(revised, "B", at=NOW + DAY)
    assert [(one.out.number, one.out.letter) for one in chased(desk, 2 * DAY).values()] == [(revised, "B")]


def test_a_lapsed_one_moves_to_the_other_list(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    desk.issue(number)
    assert list(chased(desk, 31 * DAY)) == []
    one = chased(desk, 31 * DAY, lapsed=True)[number]
    assert (one.pressing.left, one.fits) == (-1, (Kind.LAPSE_NOTICE,))


def test_a_letter_on_record_is_the_last_contact_and_stands_in_the_history(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    desk.issue(number)
    chasing.record_sent(desk.store, CLERK, number, "A", REMINDED, NOW + 19 * DAY)
    one = chased(desk, 20 * DAY)[number]
    assert one.last is not None
    assert (one.last.sending, one.last.by, one.pressing.silent) == (REMINDED, "imogen", 2)
    last = quoting.quotation(desk.store, CLERK, number, NOW).history[-1]
    assert (last.what, last.facts["to"], last.facts["day"]) == ("sent-reminder", REMINDED.addressee, "2026-11-20")


def test_a_draft_is_sent_to_nobody_and_no_day_lies_ahead_or_before_issue(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    with pytest.raises(NotIssued):
        chasing.record_sent(desk.store, CLERK, number, "A", REMINDED, NOW + 19 * DAY)
    desk.issue(number)
    for at, day, code in ((5, date(2026, 11, 20), "in-the-future"), (5, date(2026, 11, 1), "before-issue")):
        sending = Sending(Kind.OFFER, Way.POST, "Agnes", day, "")
        with pytest.raises(BadInput) as refused:
            chasing.record_sent(desk.store, CLERK, number, "A", sending, NOW + at * DAY)
        assert [fault.code for fault in refused.value.faults] == [code]


def test_a_shell_round_an_old_part_asks_for_it_by_name(desk: Desk) -> None:
    number = desk.drafted((RING, 1))
    desk.issue(number)
    assert chased(desk, DAY)[number].parts == ("P4",)
    found = {one.kind: one for one in chasing.letters(desk.store, CLERK, number, "A", NOW)}
    assert list(found) == [Kind.OFFER, Kind.REMINDER, Kind.PART_REQUEST]
    for kind in (Kind.OFFER, Kind.PART_REQUEST):
        assert "– P4: " in found[kind].text
        assert "150 mm" in found[kind].text
    assert "to the end of 2 December 2026" in found[Kind.REMINDER].text


def test_a_letter_is_in_the_customer_s_language_and_its_days_as_he_writes_them(desk: Desk) -> None:
    german = desk.drafted((PLAIN, 1), wish=desk.wish(country="GB", language="de"))
    american = desk.drafted((PLAIN, 1), wish=desk.wish(country="US"))
    desk.issue(german)
    desk.issue(american)
    (offer, *_) = chasing.letters(desk.store, CLERK, german, "A", NOW)
    assert "bis zum Ende des 2. Dezember 2026" in offer.text
    assert offer.text.endswith("Imogen Faulk\nRavensmoor Body Company")
    (offer, *_) = chasing.letters(desk.store, CLERK, american, "A", NOW)
    assert "December 2, 2026" in offer.text
    (offer, *_) = chasing.letters(desk.store, CLERK, german, "A", NOW, "en")
    assert offer.text.startswith("Dear Agnes Thornbury,")


def test_no_letter_has_a_place_for_a_sum() -> None:
    for language in ("en", "de"):
        letters = [text for key, text in catalogue(language).items() if key.startswith("letter.")]
        assert len(letters) == 34
        assert not any(slot in text for text in letters for slot in ("{total}", "{deposit}", "{sum}", "£", "€"))


def test_an_approval_that_was_given_is_no_longer_waited_for(desk: Desk) -> None:
    number = desk.drafted(({**PLAIN, "wheel-well": "shallow"}, 1))
    asked = approving.ask_for(desk.store, CLERK, number, "A", 1, "A4", "", NOW, expected=2)
    desk.issue(number)
    assert chased(desk, DAY)[number].approvals == ("A4",)
    approving.answer(desk.store, MANAGER, asked.id, True, "Fits.", NOW)
    assert chased(desk, DAY)[number].approvals == ()


def test_a_dealer_chases_his_own(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1), who=HOLLIN)
    desk.issue(number, who=HOLLIN)
    assert [one.out.number for one in chasing.to_chase(desk.store, HOLLIN, NOW).rows] == [number]
    assert chasing.to_chase(desk.store, BAYOU, NOW).rows == ()
    with pytest.raises(NotFound):
        chasing.letters(desk.store, BAYOU, number, "A", NOW)
    (offer, *_) = chasing.letters(desk.store, HOLLIN, number, "A", NOW)
    assert offer.text.endswith("Nell Arkwell\nHollin Lane Classics")


def test_what_was_sent_is_neither_changed_nor_taken_out(desk: Desk) -> None:
    number = desk.drafted((PLAIN, 1))
    desk.issue(number)
    chasing.record_sent(desk.store, CLERK, number, "A", REMINDED, NOW + 19 * DAY)
    for statement in ("DELETE FROM sendings", "UPDATE sendings SET text = ''"):
        with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
            db.execute(statement)
