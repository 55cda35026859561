"""Tags of customers' parts: what each says, which there are, and by when a part is needed once its shell has a slot."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app import calendar
from app.domain.asking.people import Person
from app.domain.errors import NotFound
from app.services.planning import promising
from app.services.quotations import tagging
from tests.app.desk import CLERK, HOLLIN, LINDENHOF, NOW, Desk
from tests.app.test_ordering import LATER
from tests.app.test_promising import clear, paid
from tests.documents.reading import characters_outside, codes, faults, fonts, pages, whole

S1_ROADSTER = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "plain"}
OWN_DOORS = {"series": "s3", "market": "home", "body": "roadster", "own-doors": "yes"}


def tags(desk: Desk, number: str, language: str = "en", size: str = "a4", who: Person = CLERK) -> bytes:
    return tagging.part_tags(desk.store, who, number, "A", language, size, calendar.around, LATER)


def test_there_is_a_tag_for_each_part_of_each_shell_with_its_number_on_both_halves(desk: Desk) -> None:
    number = desk.drafted((S1_ROADSTER, 2), (OWN_DOORS, 1))
    desk.issue(number)
    sheets = pages(tags(desk, number))
    assert len(sheets) == 3
    for sheet, tag in zip(sheets, ("1.1/P1", "1.2/P1", "2.1/P2a"), strict=True):
        assert sheet.count(f"{number}/{tag}") == 2


def test_a_tag_says_part_limits_company_and_where_to_send_it_and_no_price_and_no_customer(desk: Desk) -> None:
    number = desk.drafted((OWN_DOORS, 1))
    desk.issue(number)
    text = whole(tags(desk, number))
    assert "P2a Doors" in text
    assert "Lower edge straight within 3 mm" in text.replace("\xa0", " ")
    assert "The doors’ hinges with their shims, and the door seals" in text
    assert "Ravensmoor Body Company · The Pressing Shed, Ravensmoor" in text
    assert "Measure before you cut, drill or paint." in text
    assert "£" not in text
    assert "Thornbury" not in text


def test_its_code_leads_to_where_the_part_is_taken_in(desk: Desk) -> None:
    # Outside: zxing-cpp reads the rendered page.
    number = desk.drafted((OWN_DOORS, 1))
    issued = desk.issue(number)
    assert issued.frozen is not None
    assert issued.frozen.imprint is not None
    here = issued.frozen.imprint.address.partition("/q/")[0]
    assert codes(tags(desk, number)) == [f"{here}/parts/{number}/1.1/P2a"] * 2


def test_while_there_is_no_slot_it_says_the_stage_and_then_the_last_day(desk: Desk) -> None:
    number = paid(desk, (S1_ROADSTER, 1))
    quotation = promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).order.quotation
    assert "Needed before: Framing jig" in whole(tags(desk, quotation))
    clear(desk, number)
    (shell,) = promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).shells
    (due,) = [one for one in shell.due if one.gate.name == "parts"]
    assert due.by is not None
    text = whole(tags(desk, quotation))
    assert f"Needed by {due.by.day} {due.by:%B %Y} (before: Framing jig)" in text
    assert f"Order {number}" in text


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_every_sheet_is_sound_and_holds_one_tag(desk: Desk, language: str, size: str) -> None:
    number = desk.drafted((OWN_DOORS | {"own-bonnet": "yes", "own-boot-lid": "yes", "trial-fit": "customers-trim"}, 1))
    desk.issue(number)
    data = tags(desk, number, language, size)
    assert faults(data) == []
    assert all(fonts(data).values())
    assert characters_outside(data, margin=20) == []
    assert len(pages(data)) == 4


def test_a_draft_s_tag_is_not_to_be_used_and_has_no_code(desk: Desk) -> None:
    number = desk.drafted((OWN_DOORS, 1))
    data = tags(desk, number)
    assert whole(data).count("Of a draft: not to be used.") == 2
    assert codes(data) == []


def test_a_dealer_prints_his_own_and_sees_nobody_elses(desk: Desk) -> None:
    number = desk.drafted((OWN_DOORS, 1), who=HOLLIN)
    desk.issue(number, who=HOLLIN, at=NOW + timedelta(minutes=1))
    assert f"{number}/1.1/P2a" in whole(tags(desk, number, who=HOLLIN))
    with pytest.raises(NotFound):
        tags(desk, number, who=LINDENHOF)
