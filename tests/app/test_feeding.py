"""The calendar as other programs read it.

Held against RFC 5545 itself: sections 3.1 (lines end in CRLF and have 75 octets at most), 3.3.11 (escaping), 3.6 and
3.6.1 (what a calendar and an event must have, and once), 3.8.2 (all-day ends are the day after). It is read back by
`properties`, written here from section 3.1, and by vobject, a reader of iCalendar that shares no code with
what writes it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest
import vobject

from app import calendar
from app.documents.workshop.all_day import AllDay, calendar_bytes
from app.services.books import tools
from app.services.planning import promising
from app.services.planning.feeding import calendar_feed
from rules.model import ToolCondition
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_ordering import LATER, S3_COUPE
from tests.app.test_promising import TODAY, clear, kept, paid

URL = "https://desk.example"
Property = tuple[str, str, str]


def feed(desk: Desk, language: str = "en", now: datetime = LATER) -> bytes:
    return calendar_feed(desk.store, CLERK, language, URL, calendar.around, now)


def unfolded(stream: bytes) -> list[str]:
    """Section 3.1: a line is cut by CRLF and one space, which may stand within a character of several octets."""
    return stream.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]


def properties(stream: bytes) -> Iterator[list[Property]]:
    """(name, parameters, value) of the calendar itself, then of each event."""
    own: list[Property] = []
    events: list[list[Property]] = []
    for line in unfolded(stream):
        name, parameters, value = re.match(r'([A-Z-]+)((?:;[^:"]+|"[^"]*")*):(.*)$', line).groups()  # type: ignore[union-attr]
        if (name, value) == ("BEGIN", "VEVENT"):
            events.append([])
        elif name not in ("BEGIN", "END"):
            (events[-1] if events else own).append((name, parameters, value))
    yield own
    yield from events


def told(stream: bytes) -> dict[str, dict[str, str]]:
    """uid → property → value, unescaped as section 3.3.11 says."""
    found = {}
    for event in list(properties(stream))[1:]:
        values = {
            name: re.sub(r"\\(.)", lambda cut: {"n": "\n"}.get(cut[1], cut[1]), value) for name, _, value in event
        }
        found[values["UID"].removesuffix("@desk.example")] = values
    return found


def days(event: dict[str, str]) -> tuple[date, date]:
    """The first and the last."""
    first, end = (datetime.strptime(event[name], "%Y%m%d").date() for name in ("DTSTART", "DTEND"))  # noqa: DTZ007
    return first, end - timedelta(days=1)


def test_a_shell_stands_on_its_slot_and_on_its_ready_day(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    assert [uid for uid in told(feed(desk)) if number in uid] == []
    clear(desk, number)
    found, made = told(feed(desk)), kept(desk, number)
    slot, ready = found[f"slot.{number}.1"], found[f"ready.{number}.1"]
    assert (days(slot), days(ready)) == ((made.slot, made.slot), (made.ready, made.ready))
    assert slot["SUMMARY"] == f"{number}/1 Framing jig: S3, Roadster, Home"
    assert ready["SUMMARY"] == f"{number}/1 ready: S3, Roadster, Home"
    assert slot["DESCRIPTION"].splitlines()[:2] == [
        "Sub-assembly from 3 November 2026",
        "Framing jig from 10 November 2026",
    ]
    assert slot["DESCRIPTION"].splitlines()[-1].startswith("Ready between ")
    assert slot["URL"] == f"{URL}/calendar/2026-11-09"


def test_nobody_is_named_and_no_sum(desk: Desk) -> None:
    clear(desk, paid(desk, (S3_ROADSTER, 1), (S3_COUPE, 2)))
    text = "\n".join(unfolded(feed(desk)))
    assert "Coupé" in text
    assert [word for word in ("Agnes", "Thornbury", "£", "GBP", "14850") if word in text] == []


def test_a_moved_shell_keeps_its_uid_and_a_revision_says_when(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    before, later = told(feed(desk)), LATER + timedelta(hours=3)
    to = calendar.around(promising.order_dates(desk.store, CLERK, number, calendar.around, LATER).book.calendar, TODAY)
    day = to.add(kept(desk, number).slot, 3)
    shown = promising.propose(desk.store, CLERK, number, 1, day, False, calendar.around, later)
    promising.move(desk.store, CLERK, number, 1, day, False, shown.token, calendar.around, later)
    after = told(feed(desk, now=later))
    uid = f"slot.{number}.1"
    assert (days(before[uid])[0], days(after[uid])[0]) == (date(2026, 11, 10), day)
    assert (before[uid]["DTSTAMP"], after[uid]["DTSTAMP"]) == (stamp(LATER), stamp(later))
    others = {uid for uid in before if number not in uid}
    assert {uid: before[uid] for uid in others} == {uid: after[uid] for uid in others}


def stamp(moment: datetime) -> str:
    return f"{moment.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def test_a_closure_is_one_entry_over_its_weekend_and_a_holiday_a_day(desk: Desk) -> None:
    found = told(feed(desk))
    august = [one for one in found.values() if one["SUMMARY"] == "Summer closure"]
    assert [days(one) for one in august] == [(date(2027, 8, 2), date(2027, 8, 13))]
    assert days(found["holiday.2026-12-25"]) == (date(2026, 12, 25), date(2026, 12, 25))
    assert found["holiday.2026-12-25"]["SUMMARY"] == "Public holiday"


@pytest.mark.parametrize(("until", "last"), [(date(2026, 12, 1), date(2026, 12, 1)), (None, TODAY)])
def test_a_tool_is_down_until_it_is_expected_back_or_as_long_as_nobody_knows(
    desk: Desk, until: date | None, last: date
) -> None:
    number = tools.tool_states(desk.store).number
    tools.set_tool(
        desk.store, MANAGER, "roadster-deck", ToolCondition.DOWN, LATER, note="Worn.", until=until, expected=number
    )
    found = told(feed(desk))["tool.roadster-deck"]
    assert days(found) == (TODAY, last)
    assert found["SUMMARY"].startswith("Tool down: ")
    assert ("expected back on 1 December 2026" in found["SUMMARY"]) == (until is not None)


def test_what_can_t_keep_its_date_says_so(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    uid, late = f"slot.{number}.1", "As things stand it can’t keep its date."
    assert late not in told(feed(desk))[uid]["DESCRIPTION"]
    day = TODAY + timedelta(days=21)
    promising.say_gate(desk.store, CLERK, number, 0, ("specification", ""), day, calendar.around, LATER)
    assert late in told(feed(desk))[uid]["DESCRIPTION"]


def test_it_speaks_the_language_that_it_was_made_in(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    found = told(feed(desk, "de"))
    assert found[f"ready.{number}.1"]["SUMMARY"].startswith(f"{number}/1 fertig: S3")
    assert "ab 10. November 2026" in found[f"slot.{number}.1"]["DESCRIPTION"]


def test_lines_and_properties_are_as_the_rfc_wants_them(desk: Desk) -> None:
    clear(desk, paid(desk, (S3_ROADSTER, 1), (S3_COUPE, 1)))
    assert_by_the_rfc(feed(desk, "de"))


def test_another_reader_of_icalendar_finds_the_same(desk: Desk) -> None:
    number = paid(desk, (S3_ROADSTER, 1))
    clear(desk, number)
    stream = feed(desk, "de")
    read = {event.uid.value: event for event in vobject.readOne(stream.decode()).vevent_list}
    ours = told(stream)
    assert {uid.removesuffix("@desk.example") for uid in read} == set(ours)
    event = read[f"slot.{number}.1@desk.example"]
    own = ours[f"slot.{number}.1"]
    assert (event.dtstart.value, event.dtend.value) == (date(2026, 11, 10), date(2026, 11, 11))
    assert (event.summary.value, event.description.value) == (own["SUMMARY"], own["DESCRIPTION"])


def test_commas_semicolons_line_ends_and_long_words_come_back_as_they_were() -> None:
    """Sixty é are 120 octets: more than a line holds."""
    told_all = "é" * 60 + ", a; b \\ c: \nnext line"
    moment = datetime(2026, 11, 2, 10, tzinfo=UTC)
    stream = calendar_bytes("Shop", [AllDay("a@desk.example", TODAY, TODAY, told_all, told_all, moment)])
    assert_by_the_rfc(stream)
    assert told(stream)["a"]["SUMMARY"] == told_all
    assert b"\\, a\\; b \\\\ c: \\nnext" in stream.replace(b"\r\n ", b"")


def assert_by_the_rfc(stream: bytes) -> None:
    assert stream.endswith(b"END:VCALENDAR\r\n")
    lines = stream.split(b"\r\n")
    assert [line for line in lines if len(line) > 75 or b"\n" in line or b"\r" in line] == []
    assert lines[0] == b"BEGIN:VCALENDAR"
    own, *events = properties(stream)
    assert sorted(name for name, _, _ in own if name in ("PRODID", "VERSION")) == ["PRODID", "VERSION"]
    assert ("VERSION", "", "2.0") in own
    assert events
    for event in events:
        names = [name for name, _, _ in event]
        assert [names.count(name) for name in ("UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY")] == [1] * 5
        by_name = {name: (parameters, value) for name, parameters, value in event}
        assert re.fullmatch(r"\d{8}T\d{6}Z", by_name["DTSTAMP"][1])
        for name in ("DTSTART", "DTEND"):
            assert (by_name[name][0], len(by_name[name][1])) == (";VALUE=DATE", 8)
        assert by_name["DTEND"][1] > by_name["DTSTART"][1]
    uids = [value for event in events for name, _, value in event if name == "UID"]
    assert len(uids) == len(set(uids))
