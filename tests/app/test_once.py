from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier, Event

import pytest
from sqlite_utils import Database

from app.domain.errors import KeyReused, NotFound, Underway
from app.domain.quotations.quotation import DeliveryPlace
from app.services import once
from app.services.once import Once
from app.services.quotations import enquiring, quoting
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk

KEY = Once("8c1e", "imogen", "POST /api/enquiries 77ab")


def test_the_same_key_twice_makes_one_enquiry_and_gives_the_same_answer(desk: Desk) -> None:
    both = [enquiring.create_enquiry(desk.store, CLERK, desk.wish(), NOW, once=KEY) for _ in range(2)]
    assert both[0] == both[1]
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW).rows) == 1


def test_pressed_twice_on_a_bad_line_it_is_one_quotation_with_one_number(desk: Desk) -> None:
    """Case 30c, as far as quotations go."""
    enquiry, start = desk.take_down(), Barrier(2)

    def press(_: int) -> str:
        start.wait()
        return quoting.create_quotation(desk.store, CLERK, enquiry.id, "GBP", DeliveryPlace(), NOW, once=KEY).number

    with ThreadPoolExecutor(2) as threads:
        assert list(threads.map(press, range(2))) == ["Q-2026-00001"] * 2
    assert len(quoting.quotations(desk.store, CLERK, NOW).rows) == 1


def test_the_same_key_for_another_request_is_refused_and_makes_nothing(desk: Desk) -> None:
    enquiring.create_enquiry(desk.store, CLERK, desk.wish(), NOW, once=KEY)
    other = Once(KEY.key, KEY.person, "POST /api/enquiries 99cd")
    with pytest.raises(KeyReused):
        enquiring.create_enquiry(desk.store, CLERK, desk.wish("Tobias Fell"), NOW, once=other)
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW).rows) == 1


def test_two_people_may_use_the_same_key(desk: Desk) -> None:
    enquiring.create_enquiry(desk.store, CLERK, desk.wish(), NOW, once=KEY)
    enquiring.create_enquiry(desk.store, MANAGER, desk.wish(), NOW, once=Once(KEY.key, "piers", KEY.fingerprint))
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW).rows) == 2


def test_a_refused_request_leaves_its_key_free_to_be_mended_and_sent_again(desk: Desk) -> None:
    with pytest.raises(NotFound):
        quoting.create_quotation(desk.store, CLERK, 99, "GBP", DeliveryPlace(), NOW, once=KEY)
    enquiry = desk.take_down()
    assert quoting.create_quotation(desk.store, CLERK, enquiry.id, "GBP", DeliveryPlace(), NOW, once=KEY).number


def test_issuing_twice_with_one_key_gives_the_issued_revision_twice(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    both = [quoting.issue(desk.store, CLERK, number, "A", NOW, expected=2, once=KEY) for _ in range(2)]
    assert both[0] == both[1]


def test_the_next_revision_asked_for_twice_with_one_key_is_one_revision(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    letters = [quoting.next_revision(desk.store, CLERK, number, NOW, once=KEY).letter for _ in range(2)]
    assert letters == ["B", "B"]


def test_the_first_answer_is_the_one_that_is_kept(desk: Desk) -> None:
    enquiring.create_enquiry(desk.store, CLERK, desk.wish(), NOW, once=KEY)
    assert once.replayed(desk.store, KEY) is None
    once.remember(desk.store, KEY, {"status": 201})
    once.remember(desk.store, KEY, {"status": 500})
    assert once.replayed(desk.store, KEY) == {"status": 201}
    with pytest.raises(KeyReused):
        once.replayed(desk.store, Once(KEY.key, KEY.person, "another"))


def test_a_second_request_is_told_when_the_first_takes_too_long(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(once, "PATIENCE", 0.05)
    begun, enough = Event(), Event()

    def slow(_: Database) -> int:
        begun.set()
        enough.wait()
        return 1

    with ThreadPoolExecutor(1) as other:
        first = other.submit(once.perform, desk.store, KEY, NOW, slow)
        begun.wait()
        with pytest.raises(Underway):
            once.perform(desk.store, KEY, NOW, slow)
        enough.set()
        assert first.result() == 1
