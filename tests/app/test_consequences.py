from __future__ import annotations

from datetime import timedelta

import pytest

from app.domain.errors import NotFound
from app.domain.quotations.quotation import Reply
from app.services.books import tools
from app.services.books.consequences import Consequences, Touched, consequences
from app.services.planning import foreseeing
from app.services.quotations import quoting, settling
from rules.model import ToolCondition
from rules.tools import Effect
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk

TOOL = "four-link-tool"
FOUR_LINK = {**S3_ROADSTER, "suspension": "four-link", "bonnet": "raised"}


def of(desk: Desk, state: ToolCondition = ToolCondition.DOWN, tool: str = TOOL, days: int = 0) -> Consequences:
    return consequences(desk.store, tool, state, NOW + timedelta(days=days))


def named(touched: tuple[Touched, ...]) -> list[tuple[str, tuple[int, ...], int]]:
    return [(f"{one.promise.number} {one.promise.letter}", one.lines, one.shells) for one in touched]


def accept(desk: Desk, number: str) -> None:
    version = desk.revision(number).version
    settling.accept(desk.store, CLERK, number, "A", Reply(NOW, "Agnes Thornbury"), NOW, expected=version)


def test_a_broken_tool_touches_what_was_accepted_what_is_out_and_what_is_being_written(desk: Desk) -> None:
    accepted, issued, draft = (desk.drafted((S3_ROADSTER, 1), (FOUR_LINK, 2)) for _ in range(3))
    desk.drafted((S3_ROADSTER, 1))
    for number in (accepted, issued):
        desk.issue(number)
    accept(desk, accepted)
    found = of(desk)
    assert (found.effect, found.was, found.number) == (Effect.WAITS, ToolCondition.OK, 4)
    assert named(found.accepted) == [(f"{accepted} A", (2,), 2)]
    assert named(found.issued) == [(f"{issued} A", (2,), 2)]
    assert named(found.drafts) == [(f"{draft} A", (2,), 2)]


def test_what_is_out_is_told_with_its_sum_before_tax(desk: Desk) -> None:
    number = desk.drafted((FOUR_LINK, 1))
    totals = desk.issue(number).totals
    assert totals is not None
    (touched,) = of(desk).issued
    assert (touched.promise.currency, touched.promise.net) == ("GBP", totals.lines_net)
    assert (touched.promise.customer, touched.promise.valid_until is not None) == ("Agnes Thornbury", True)


def test_what_has_lapsed_is_touched_no_more(desk: Desk) -> None:
    desk.issue(desk.drafted((FOUR_LINK, 1)))
    assert (len(of(desk, days=30).issued), len(of(desk, days=31).issued)) == (1, 0)


def test_a_draft_that_only_its_other_answers_bind_to_the_tool_is_touched(desk: Desk) -> None:
    number = desk.drafted(({**S3_ROADSTER, "bonnet": "raised"}, 1))
    draft = desk.revision(number).draft()
    bound = {o: t for o, t in draft.lines[0].specification.answers.items() if o != "suspension"}
    line = type(draft.lines[0])(type(draft.lines[0].specification)(bound))
    quoting.save_draft(desk.store, CLERK, number, "A", type(draft)("GBP", lines=(line,)), NOW, expected=2)
    assert named(of(desk).drafts) == [(f"{number} A", (1,), 1)]


def test_a_tool_that_is_lost_is_told_of_as_well_when_it_comes_back(desk: Desk) -> None:
    number = desk.drafted((FOUR_LINK, 1))
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.LOST, NOW, note="Stolen.", expected=4)
    found = of(desk, ToolCondition.OK)
    assert (found.was, found.effect) == (ToolCondition.LOST, Effect.FREE)
    assert found.reliance is not None
    assert (found.reliance.using, named(found.drafts)) == (13_632, [(f"{number} A", (1,), 1)])


def test_what_lapses_within_a_week_is_told_beforehand_the_first_at_the_top(desk: Desk) -> None:
    """Valid for thirty days, to the midnight after: what went out on 2 November lapses as 2 December ends."""
    late, early, answered = (desk.drafted((S3_ROADSTER, 1)) for _ in range(3))
    desk.issue(early)
    desk.issue(late, at=NOW + timedelta(days=1))
    desk.issue(answered)
    accept(desk, answered)

    def told(days: int) -> list[str]:
        return [promise.number for promise in foreseeing.about_to_lapse(desk.store, NOW + timedelta(days=days))]

    assert (told(23), told(24), told(25), told(31)) == ([], [early], [early, late], [late])


def test_looking_at_consequences_says_nothing_of_the_tool(desk: Desk) -> None:
    of(desk, ToolCondition.LOST)
    assert tools.tool_states(desk.store).number == 4


def test_a_tool_that_the_book_does_not_name_has_no_consequences(desk: Desk) -> None:
    with pytest.raises(NotFound):
        of(desk, tool="hammer")
