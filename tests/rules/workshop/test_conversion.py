"""From a shell of stock to the wanted one: each difference by the demo book's own table of what may still change."""

from __future__ import annotations

from dataclasses import replace

from rules.donor.usual import usual_specification
from rules.model import ORDERED, Allowed
from rules.workshop.conversion import Conversion, Difference, conversion
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()
HOME = usual_specification(BOOK, {"series": "s3", "market": "home", "body": "roadster"}, NO_DONOR)
STAGES = [stage.id for stage in BOOK.stages]


def to(through: str | None, **wanted: str) -> Conversion:
    """From the usual S3 roadster that has come as far as into this stage; None: ordered and no more."""
    come = (ORDERED, *(STAGES[: STAGES.index(through) + 1] if through else ()))
    found = conversion(BOOK, HOME, {**HOME, **wanted}, NO_DONOR, come)
    assert found is not None
    return found


def taken(found: Conversion) -> dict[str, Allowed]:
    return {one.option: one.taken for one in found.differences}


def test_the_same_shell_differs_in_nothing() -> None:
    assert to("skinning") == Conversion((), HOME, 0, (), ())


def test_a_choice_of_stage_is_free_priced_or_a_matter_of_approval_by_how_far_the_shell_is() -> None:
    """The trade's table: holes are free up to the welding, priced at skinning, a matter of approval once inspected."""
    stages = ("framing", "rollover", "skinning", "inspection")
    assert [taken(to(stage, holes="blanked"))["holes"] for stage in stages] == [
        Allowed.FREE, Allowed.FREE, Allowed.PRICED, Allowed.APPROVAL,
    ]  # fmt: skip


def test_what_can_not_be_changed_stays_as_it_is_and_the_rest_becomes_what_is_wanted() -> None:
    found = to("framing", steering="left", holes="blanked")
    assert found.kept == (Difference("steering", "right", "left", Allowed.NO),)
    assert found.changed == (Difference("holes", "open", "blanked", Allowed.FREE),)
    assert found.becomes == {**HOME, "holes": "blanked"}
    assert found.hardest is Allowed.FREE


def test_the_hardest_of_what_is_changed_is_how_the_whole_is_taken() -> None:
    assert to("skinning", holes="blanked", roof="none").hardest is Allowed.PRICED
    assert to("sub-assembly", holes="blanked", steering="left").hardest is Allowed.APPROVAL
    assert to("framing", steering="left").hardest is Allowed.FREE


def test_days_are_those_of_the_additions_that_are_new() -> None:
    """The trade's days: painted adds twenty, metallic three more."""
    painted = {"finish": "painted", "scope": "outside", "primer": "epoxy-and-filler"}
    assert to(None, **painted, colour="oat").days == 20
    assert to(None, **painted, colour="frost").days == 23
    assert to(None, holes="blanked").days == 0


def test_operations_that_come_and_go_are_named() -> None:
    found = to(None, suspension="four-link", bonnet="raised")
    came, gone = {one.id for one in found.work}, {one.id for one in found.undone}
    assert came
    assert not came & gone
    back = conversion(BOOK, found.becomes, HOME, NO_DONOR, (ORDERED,))
    assert back is not None
    assert ({one.id for one in back.undone}, {one.id for one in back.work}) == (came, gone)


def test_of_several_rows_that_speak_of_an_option_the_hardest_counts_and_of_none_a_person_decides() -> None:
    """In sub-assembly the hand needs approval; on the jig it can't be had any more."""
    rows = tuple(one for one in BOOK.late_changes if "steering" not in one.options)
    hand = next(one for one in BOOK.late_changes if "steering" in one.options)
    softer = replace(hand, id="softer", since={ORDERED: Allowed.FREE})
    for late, expected in (
        ((*rows, softer, hand), Allowed.NO),
        ((*rows, softer), Allowed.FREE),
        (rows, Allowed.APPROVAL),
    ):
        book = replace(BOOK, late_changes=late)
        found = conversion(book, HOME, {**HOME, "steering": "left"}, NO_DONOR, (ORDERED, "sub-assembly", "framing"))
        assert found is not None
        assert taken(found) == {"steering": expected}


def test_a_book_that_names_another_choice_has_no_conversion() -> None:
    assert conversion(BOOK, {**HOME, "body": "barge"}, HOME, NO_DONOR, (ORDERED,)) is None
    assert conversion(BOOK, HOME, {**HOME, "body": "barge"}, NO_DONOR, (ORDERED,)) is None
    assert conversion(BOOK, {}, HOME, NO_DONOR, (ORDERED,)) is None
