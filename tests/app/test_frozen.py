from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.customers.customer import Customer
from app.domain.quotations.enquiry import DonorCar, Picture, Source, Wish
from app.domain.quotations.quotation import FrozenLine, Happening
from app.store.frozen import frozen_text, thawed
from app.store.specifications import specification, specification_text
from rules.answer import Depends, State, Verdict
from rules.money.price import LineNet, ShellPrice, Tariff
from rules.money.totals import ShellsPrice
from rules.specification import Origin, Specification, Taken

WORDS = st.text(max_size=20)
LINE = FrozenLine(
    settled={"body": "roadster"},
    standing={"body": State.CHOSEN},
    verdicts=(Verdict.ONCE, Verdict.AS_HAD),
    depends=Depends(parts=("P1",)),
    price=ShellsPrice(ShellPrice((LineNet("x", "A", None, (), 0, 0, 0),), (), 0), 2, 0),
)


@pytest.mark.parametrize(
    "value",
    [
        LINE,
        replace(LINE, price=ShellsPrice(ShellPrice((), ("delivery.van",), None), 1, None)),  # nothing priced
        Tariff("EUR", {"A": Decimal("12.50")}),
        Wish(Customer("Ö"), DonorCar("T1", built=Picture({"a": "b"}, Source.PLATE)), date(2027, 6, 1)),
        Happening(datetime(2026, 11, 2, 10, tzinfo=UTC), "imogen", "issued", {"letter": "A"}),
    ],
)
def test_what_is_frozen_thaws_to_the_same(value: object) -> None:
    assert thawed(type(value), frozen_text(value)) == value


def test_a_discount_keeps_its_decimals() -> None:
    assert str(thawed(Tariff, frozen_text(Tariff("EUR", {"A": Decimal("12.50")}))).discounts["A"]) == "12.50"


@given(st.dictionaries(WORDS, st.builds(Taken, WORDS, st.sampled_from(Origin))))
def test_a_specification_is_kept_as_it_was_typed(answers: dict[str, Taken]) -> None:
    assert specification(specification_text(Specification(answers))) == Specification(answers)
