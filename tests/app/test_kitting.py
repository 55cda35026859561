"""The kit of a shell: checked line by line, and no shell is released before it is complete."""

from __future__ import annotations

import pytest

from app.domain.errors import BadInput, ShellStands, ShellStopped
from app.domain.floor.kit import KitStands
from app.domain.floor.shell import ShellState
from app.services.floor import building, kitting, overseeing
from app.services.orders import ordering
from tests.app.desk import CLERK, S3_ROADSTER, Desk
from tests.app.test_building import LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, accepted, confirm, pay, through


@pytest.fixture
def shell(workshop: Desk) -> int:  # noqa: F811
    """Of a confirmed order, its kit not looked at."""
    order = accepted(workshop, S3_ROADSTER)
    pay(workshop, order)
    through(workshop, order)
    confirm(workshop, order)
    return ordering.order(workshop.store, CLERK, order, LATER).shells[0].id


def why(desk: Desk, shell: int) -> list[str]:
    with pytest.raises(ShellStopped) as refused:
        building.release(desk.store, LEAD, shell, LATER)
    return [fault.path for fault in refused.value.faults]


def say(desk: Desk, shell: int, line: str, stands: KitStands, what: str = "", by: str | None = None) -> None:
    kitting.check(desk.store, LEAD, shell, line, stands, LATER, what=what, approved_by=by)


def test_a_kit_is_complete_line_by_line_before_a_shell_is_released(workshop: Desk, shell: int) -> None:  # noqa: F811
    many = len(kitting.kit(workshop.store, LEAD, shell, LATER).lines)
    assert why(workshop, shell) == [f"kit-unchecked.{many}"]
    say(workshop, shell, "sills", KitStands.SHORT, "Left inner sill.")
    kitting.all_present(workshop.store, LEAD, shell, LATER)
    assert why(workshop, shell) == ["kit-short.sills"]
    (on_floor,) = overseeing.floor(workshop.store, LATER)
    assert ([(stop.what, stop.of) for stop in on_floor.stops], on_floor.unchecked) == ([("kit-short", "sills")], 0)
    say(workshop, shell, "sills", KitStands.SUBSTITUTE, "Folded by hand from 1.2 mm.", "oona")
    building.release(workshop.store, LEAD, shell, LATER)
    assert overseeing.shell(workshop.store, LEAD, shell, LATER).shell.state is ShellState.RELEASED
    with pytest.raises(ShellStands):
        say(workshop, shell, "sills", KitStands.SHORT)
    said = kitting.kit(workshop.store, LEAD, shell, LATER).said["sills"]
    assert (said.stands, said.approved_by, said.by) == (KitStands.SUBSTITUTE, "oona", "tomasz")


@pytest.mark.parametrize(
    ("what", "by", "at_fault"),
    [
        ("", "oona", ["what"]),
        ("By hand.", None, ["approved_by"]),
        ("By hand.", "idris", ["approved_by"]),  # a welder approves no substitute
        ("By hand.", "tomasz", ["approved_by"]),  # nor does whoever checks
    ],
)
def test_a_substitute_says_what_it_is_and_who_else_approved_it(
    workshop: Desk,  # noqa: F811
    shell: int,
    what: str,
    by: str | None,
    at_fault: list[str],
) -> None:
    with pytest.raises(BadInput) as refused:
        say(workshop, shell, "sills", KitStands.SUBSTITUTE, what, by)
    assert [fault.path for fault in refused.value.faults] == at_fault


def test_a_line_that_the_shell_has_not_is_refused(workshop: Desk, shell: int) -> None:  # noqa: F811
    with pytest.raises(BadInput):
        say(workshop, shell, "roof", KitStands.PRESENT)
