"""What is plainly well formed is read without the schema: nothing else gets through, and nothing is read otherwise."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

from app.web.fields import By, Of
from app.web.schemas.asking import LONGEST_NAME, Specified, TakenIn
from rules.specification import Origin, Taken

NAMES = st.sampled_from(["body", "coupe", "", "x" * LONGEST_NAME, "x" * (LONGEST_NAME + 1)])
ORIGINS = st.sampled_from([*(origin.value for origin in Origin), "guessed", "CHOSEN"])
ODD = st.one_of(st.none(), st.booleans(), st.integers(), NAMES, st.lists(NAMES, max_size=2))
TAKEN = st.one_of(
    st.fixed_dictionaries({"choice": NAMES, "origin": ORIGINS}),
    st.fixed_dictionaries({"choice": st.one_of(NAMES, ODD)}, optional={"origin": st.one_of(ORIGINS, ODD), "x": ODD}),
    ODD,
)


def read(field: By, value: Any) -> Any:
    """What is read, or all that is said against it."""
    try:
        return field.deserialize(value)
    except ValidationError as error:
        return error.messages


@given(st.one_of(st.dictionaries(NAMES, TAKEN, max_size=3), ODD))
def test_both_ways_read_the_same_and_refuse_the_same(value: Any) -> None:
    assert read(Specified(), value) == read(By(Of(TakenIn)), value)


def test_what_is_well_formed_is_taken() -> None:
    value = {"body": {"choice": "coupe", "origin": "usual"}}
    assert read(Specified(), value) == {"body": Taken("coupe", Origin.USUAL)}


def test_more_names_than_any_book_has_are_refused() -> None:
    many = {f"o{n}": {"choice": "c", "origin": "chosen"} for n in range(501)}
    assert "too-long" in str(read(Specified(), many))
