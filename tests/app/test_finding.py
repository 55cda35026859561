"""Found again however it was written: telephone numbers and donor cars' numbers."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.domain.finding import sought_words
from app.domain.happenings import deeds
from app.domain.quotations.enquiry import DonorCar
from app.domain.quotations.quotation import Draft, Happening
from app.services.planning import foreseeing
from app.services.quotations import enquiring, quoting
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk

#: 07700 900000 to 900999 are numbers that Ofcom keeps for drama, and one of them written in the ways people write it
#: (E.123 of the ITU for the international form).
ONE_NUMBER = (
    "07700 900123",
    "+44 7700 900123",
    "0044 7700 900123",
    "+44 (0)7700 900123",
    "07700900123",
    "(07700) 900-123",
)


@pytest.mark.parametrize("typed", ONE_NUMBER)
@pytest.mark.parametrize("kept", ONE_NUMBER)
def test_a_telephone_number_is_found_however_it_is_written(desk: Desk, kept: str, typed: str) -> None:
    desk.take_down(wish=desk.wish(telephone=kept))
    desk.take_down(wish=desk.wish("Tobias Fell", telephone="07700 900124"))
    assert [one.customer.name for one in enquiring.find_enquiries(desk.store, CLERK, NOW, typed).rows] == [
        "Agnes Thornbury"
    ]


def test_the_end_of_a_number_and_a_name_beside_it_find_it_too(desk: Desk) -> None:
    desk.take_down(wish=desk.wish(telephone="+44 7700 900123"))
    for typed in ("900123", "thornbury 07700 900123", "0044 7700 900123 Agnes"):
        assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, typed).rows) == 1, typed
    assert enquiring.find_enquiries(desk.store, CLERK, NOW, "fell 07700 900123").rows == ()


def test_a_number_from_abroad_is_found_as_it_is_dialled_there_and_here(desk: Desk) -> None:
    desk.take_down(wish=desk.wish(telephone="030 23125 015"))  # of those that Germany keeps for drama
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, "+49 30 23125 015").rows) == 1


@pytest.mark.parametrize("kept", ["T2-05900", "t2 5900", "T2-O5900"])
@pytest.mark.parametrize("typed", ["T2-05900", "t2-5900", "T2-O5900", "t205900", "5900"])
def test_a_donor_car_is_found_however_its_number_is_written(desk: Desk, kept: str, typed: str) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=DonorCar(kept)))
    desk.issue(number)
    assert len(enquiring.find_enquiries(desk.store, CLERK, NOW, typed).rows) == 1
    assert [row.number for row in quoting.quotations(desk.store, CLERK, NOW, text=typed).rows] == [number]
    assert [work.number for work in foreseeing.work_to_come(desk.store, NOW, text=typed).rows] == [number]


def test_what_is_no_telephone_number_stays_as_many_words_as_it_is() -> None:
    assert sought_words("Q-2026-00042 fenn") == ("q202600042", "fenn")
    assert sought_words("00042") == ("00042",)
    assert sought_words("0 0 0 1") == ("0", "0", "0", "1")


def test_what_one_did_many_times_running_is_told_once(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    for minute in range(1, 4):
        at = NOW + timedelta(minutes=minute)
        quoting.save_draft(desk.store, CLERK, number, "A", Draft("GBP", note=str(minute)), at, expected=minute + 1)
    quoting.save_draft(desk.store, MANAGER, number, "A", Draft("GBP"), NOW + timedelta(minutes=9), expected=5)
    told = list(deeds(quoting.quotation(desk.store, CLERK, number, NOW).history))
    assert [(one.last.what, one.last.by, one.times) for one in told] == [
        ("revision-drafted", "imogen", 1),
        ("revision-changed", "imogen", 4),
        ("revision-changed", "piers", 1),
    ]
    assert told[1].last.at == NOW + timedelta(minutes=3)


def test_only_what_the_page_does_by_itself_is_gathered() -> None:
    issued = Happening(NOW, "imogen", "revision-issued", {"letter": "A"})
    assert [one.times for one in deeds((issued, issued))] == [1, 1]
