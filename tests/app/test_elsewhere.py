"""Case 5: one donor car, two customers. The office is told, a dealer is told nothing."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.domain.customers.customer import Customer
from app.domain.errors import MayNot
from app.domain.quotations.enquiry import DonorCar, Wish
from app.domain.quotations.quotation import Standing
from app.services.quotations import elsewhere, enquiring, quoting
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

CAR = DonorCar("T3-30110", "s3", 30110, established=True)


def test_the_last_issued_comes_first_and_a_draft_is_told_as_one(desk: Desk) -> None:
    out, draft = (
        desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=CAR)),
        desk.drafted(wish=desk.wish("Fell", donor=CAR)),
    )
    desk.issue(out)
    found = elsewhere.donor_elsewhere(desk.store, CLERK, "T3-30110", NOW)
    assert [(one.number, one.letter, one.standing, one.customer) for one in found] == [
        (out, "A", Standing.ISSUED, "Agnes Thornbury"),
        (draft, "A", Standing.DRAFT, "Fell"),
    ]
    assert (found[0].issued_at, found[1].issued_at) == (NOW, None)


@pytest.mark.parametrize("typed", ["T3-30110", "t3 30110", "T3\N{EN DASH}3O11O", " t3-30110 "])
def test_the_car_is_known_however_its_number_is_typed(desk: Desk, typed: str) -> None:
    number = desk.drafted(wish=desk.wish(donor=CAR))
    assert [one.number for one in elsewhere.donor_elsewhere(desk.store, CLERK, typed, NOW)] == [number]


def test_a_number_that_nobody_confirmed_is_known_as_well(desk: Desk) -> None:
    """T2-21301 is one past the last that is known: it may be quoted for, not established."""
    number = desk.drafted(wish=desk.wish(donor=DonorCar("t2 21301")))
    assert [one.number for one in elsewhere.donor_elsewhere(desk.store, CLERK, "T2-21301", NOW)] == [number]


def test_what_can_t_be_read_is_no_car(desk: Desk) -> None:
    desk.drafted(wish=desk.wish(donor=DonorCar("not known yet")))
    assert elsewhere.donor_elsewhere(desk.store, CLERK, "not known yet", NOW) == ()
    assert elsewhere.donor_elsewhere(desk.store, CLERK, "", NOW) == ()


def test_one_s_own_enquiry_is_no_warning(desk: Desk) -> None:
    number = desk.drafted(wish=desk.wish(donor=CAR))
    own = quoting.quotation(desk.store, CLERK, number, NOW).enquiry
    assert elsewhere.donor_elsewhere(desk.store, CLERK, "T3-30110", NOW, besides=own) == ()


def test_a_car_that_was_put_right_later_is_still_on_what_went_out(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=CAR))
    desk.issue(number)
    own = quoting.quotation(desk.store, CLERK, number, NOW).enquiry
    other = Wish(Customer("Agnes Thornbury", country="GB"), DonorCar("T3-30111", "s3", 30111, established=True))
    enquiring.edit_enquiry(desk.store, CLERK, own, other, NOW, expected=1)
    for typed in ("T3-30110", "T3-30111"):
        assert [one.number for one in elsewhere.donor_elsewhere(desk.store, CLERK, typed, NOW)] == [number]


def test_a_dealer_is_refused_before_anything_is_looked_up(desk: Desk) -> None:
    desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=CAR))
    told = []
    for typed in ("T3-30110", "T3-30999", "nonsense"):
        with pytest.raises(MayNot) as refused:
            elsewhere.donor_elsewhere(desk.store, LINDENHOF, typed, NOW)
        told.append(refused.value.facts)
    assert told[0] == told[1] == told[2]


def test_the_manager_is_told_what_a_dealer_quotes(desk: Desk) -> None:
    desk.drafted((S3_ROADSTER, 1), who=LINDENHOF, wish=desk.wish(donor=CAR), price_list="EUR")
    later = NOW + timedelta(days=1)
    (found,) = elsewhere.donor_elsewhere(desk.store, MANAGER, "T3-30110", later)
    assert (found.dealer, found.standing) == ("lindenhof", Standing.DRAFT)
