from __future__ import annotations

import sqlite3
from datetime import UTC, datetime, timedelta

import pytest

from app.domain.errors import (
    BadInput,
    CannotBeBuilt,
    CannotIssue,
    ChangedByAnother,
    DeliveryContradicts,
    Frozen,
    NotComplete,
    NothingToIssue,
    NotPriced,
)
from app.domain.quotations.enquiry import DonorCar
from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold, Standing
from app.services.books import publishing, tools
from app.services.quotations import enquiring, handing_out, papering, quoting
from demo.loading import BOOK
from rules.model import ToolCondition
from rules.specification import Origin, Specification
from tests.app.desk import BAYOU, CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk

#: Case 11: the small window is usual on this car, and can be built once the owner's ring has passed (P4).
SMALL_WINDOW = {"body": "coupe", "market": "home", "series": "s2"}
T2_05900 = DonorCar("T2-05900", "s2", 5900, True, "manual")

#: What a program gone wrong might try.
MEDDLING = (
    "UPDATE revisions SET note = 'changed'",
    "UPDATE revisions SET issued_at = NULL",
    "DELETE FROM revisions",
    "UPDATE revision_lines SET quantity = 9",
    "DELETE FROM revision_lines",
    "INSERT INTO revision_lines (revision, position, quantity, specification) VALUES (1, 7, 1, '{}')",
    "UPDATE revision_extras SET quantity = 9",
    "DELETE FROM revision_extras",
    "INSERT INTO revision_extras VALUES (1, 7, 'photo-book', 1)",
    "UPDATE papers SET pdf = x'00'",
    "DELETE FROM papers",
    "INSERT INTO papers (revision, language, size, sha256, pdf) VALUES (1, 'en', 'a4', '', x'00')",
    "INSERT OR REPLACE INTO papers (id, revision, language, size, sha256, pdf) VALUES (1, 1, 'en', 'a4', '', x'00')",
    "INSERT OR REPLACE INTO revisions SELECT * FROM revisions",
    "INSERT OR REPLACE INTO books SELECT * FROM books",
    "INSERT OR REPLACE INTO tool_states SELECT * FROM tool_states",
    "INSERT OR REPLACE INTO history SELECT * FROM history",
    "UPDATE history SET by = 'nobody'",
    "DELETE FROM history",
)

TEXT = BOOK.read_text(encoding="utf-8")


def test_a_revision_with_a_part_open_is_issued_and_says_so(desk: Desk) -> None:
    """Case 11: 14 220.00, VAT 2 844.00, 17 064.00."""
    issued = desk.issue(desk.drafted((SMALL_WINDOW, 1), wish=desk.wish(donor=T2_05900)))
    assert issued.standing is Standing.ISSUED
    assert issued.lines[0].frozen is not None
    assert issued.lines[0].frozen.depends.parts == ("P4",)
    assert issued.totals is not None
    assert (issued.totals.lines_net, issued.totals.cases[0].sum.payable) == (14_220_00, 17_064_00)


def test_issuing_freezes_book_tool_state_code_and_validity(desk: Desk) -> None:
    """Case 21: issued 2 Nov 2026, valid to the end of 2 Dec in London."""
    issued = desk.issue(desk.drafted((S3_ROADSTER, 1)))
    assert (issued.book, issued.tool_state, issued.issued_at, issued.issued_by) == (1, 4, NOW, "imogen")
    assert issued.valid_until == datetime(2026, 12, 3, tzinfo=UTC)
    assert issued.code is not None
    assert handing_out.by_code(desk.store, issued.code) == ("Q-2026-00001", "A")
    assert handing_out.by_code(desk.store, "guess") is None


@pytest.mark.parametrize(
    ("at", "standing"),
    [
        (datetime(2026, 12, 2, 23, 40, tzinfo=UTC), Standing.ISSUED),  # 23:40 in London
        (datetime(2026, 12, 3, 0, 0, tzinfo=UTC), Standing.LAPSED),  # midnight
        (datetime(2026, 12, 3, 0, 30, tzinfo=UTC), Standing.LAPSED),  # 19:30 in New York on 2 Dec
    ],
)
def test_it_lapses_at_midnight_in_london_by_reading_the_clock(desk: Desk, at: datetime, standing: Standing) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    quotation = quoting.quotation(desk.store, CLERK, number, at)
    assert (quotation.standing, quotation.revisions[0].standing) == (standing, standing)


def test_summer_time_moves_the_midnight_but_not_the_day(desk: Desk) -> None:
    """Issued 1 March: valid to the end of 31 March, when London is an hour ahead of UTC."""
    number = desk.drafted((S3_ROADSTER, 1), at=datetime(2027, 3, 1, 12, tzinfo=UTC))
    issued = desk.issue(number, at=datetime(2027, 3, 1, 12, tzinfo=UTC))
    assert issued.valid_until == datetime(2027, 3, 31, 23, tzinfo=UTC)


def test_what_is_out_comes_out_the_same_after_a_tool_is_lost_and_a_dearer_book_is_published(desk: Desk) -> None:
    four_link = {**S3_ROADSTER, "suspension": "four-link", "bonnet": "raised"}
    number = desk.drafted((four_link, 1), (S3_ROADSTER, 2))
    issued = desk.issue(number)
    tools.set_tool(desk.store, MANAGER, "four-link-tool", ToolCondition.LOST, NOW, note="Stolen.", expected=4)
    publishing.publish_book(desk.store, MANAGER, _dearer(), NOW)
    again = quoting.price_revision(desk.store, CLERK, number, "A", NOW + timedelta(days=10))
    assert (again.book, again.tool_state, again.totals) == (1, 4, issued.totals)
    for line, answered in zip(issued.lines, again.answers, strict=True):
        assert line.frozen is not None
        assert answered is not None
        assert (answered.answer.settled, answered.answer.depends) == (line.frozen.settled, line.frozen.depends)
    assert desk.revision(number) == issued


def test_the_next_draft_meets_the_lost_tool_and_the_dearer_book(desk: Desk) -> None:
    four_link = {**S3_ROADSTER, "suspension": "four-link", "bonnet": "raised"}
    number = desk.drafted((four_link, 1), (S3_ROADSTER, 1))
    desk.issue(number)
    tools.set_tool(desk.store, MANAGER, "four-link-tool", ToolCondition.LOST, NOW, note="Stolen.", expected=4)
    publishing.publish_book(desk.store, MANAGER, _dearer(), NOW)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    priced = quoting.price_revision(desk.store, CLERK, number, "B", NOW)
    assert (priced.book, priced.tool_state) == (2, 5)
    (refusal,) = priced.refusals
    assert isinstance(refusal, CannotBeBuilt)
    assert refusal.facts == {"line": 1, "causes": (("four-link-tool",),)}
    assert priced.price is not None
    assert priced.price.lines[1].net == 12_340_00  # 12 100 for the dearer roadster, 240 for the dolly


def test_an_issued_revision_keeps_the_customer_and_the_donor_it_was_issued_for(desk: Desk) -> None:
    number = desk.drafted((SMALL_WINDOW, 1), wish=desk.wish(donor=T2_05900))
    issued = desk.issue(number)
    enquiring.edit_enquiry(desk.store, CLERK, 1, desk.wish("Somebody Else", country="FR"), NOW, expected=1)
    again = quoting.price_revision(desk.store, CLERK, number, "A", NOW)
    assert issued.frozen is not None
    assert (issued.frozen.customer.name, again.totals) == ("Agnes Thornbury", issued.totals)


def test_a_draft_s_paper_can_be_had_even_where_it_can_t_be_built(desk: Desk) -> None:
    number = desk.drafted(({**S3_ROADSTER, "roof": "folding"}, 1))
    assert handing_out.paper(desk.store, CLERK, number, "A", "de", "letter", NOW).startswith(b"%PDF-")


@pytest.mark.parametrize(("language", "size", "path"), [("fr", "a4", "language"), ("en", "a3", "size")])
def test_a_paper_in_no_such_language_or_size_is_refused(desk: Desk, language: str, size: str, path: str) -> None:
    with pytest.raises(BadInput) as refused:
        handing_out.paper(desk.store, CLERK, desk.drafted(), "A", language, size, NOW)
    assert [fault.path for fault in refused.value.faults] == [path]


def test_a_revision_without_a_line_is_not_issued(desk: Desk) -> None:
    _refused(desk, desk.drafted(), NothingToIssue)


def test_what_can_t_be_built_is_not_issued_and_every_cause_is_named(desk: Desk) -> None:
    """Case 8: S1, narrow tunnel, four-link, vented: N3 and N1, and no part is asked for."""
    chosen = {**S3_ROADSTER, "series": "s1", "suspension": "four-link", "tunnel": "narrow", "scuttle": "vented"}
    refusal = _refused(desk, desk.drafted((S3_ROADSTER, 1), (chosen, 1)), CannotBeBuilt)
    assert refusal.facts["line"] == 2
    causes = {rule for cause in refusal.facts["causes"] for rule in cause}
    assert {"N1", "N3"} <= causes
    assert "P1" not in causes


def test_an_open_question_is_named(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    specification = desk.specification(S3_ROADSTER)
    left_open = Specification({o: t for o, t in specification.answers.items() if o not in ("bonnet", "packing")})
    draft = Draft("GBP", DeliveryPlace("GB"), lines=(DraftLine(left_open),))
    quoting.save_draft(desk.store, CLERK, number, "A", draft, NOW, expected=2)
    assert _refused(desk, number, NotComplete).facts == {"line": 1, "open_questions": ("bonnet", "packing")}


def test_a_price_that_is_missing_blocks_issuing_and_is_never_nothing(desk: Desk) -> None:
    """Case 20: our van is priced in GBP only."""
    van = {**S3_ROADSTER, "delivery": "van"}
    number = desk.drafted((van, 1), who=LINDENHOF, price_list="EUR")
    refusal = _refused(desk, number, NotPriced, LINDENHOF)
    assert (refusal.facts["line"], refusal.facts["unpriced"], refusal.facts["list"]) == (1, ("delivery.van",), "EUR")
    priced = quoting.price_revision(desk.store, LINDENHOF, number, "A", NOW)
    assert (priced.totals, priced.price and priced.price.net) == (None, None)


def test_a_delivery_that_does_not_go_to_the_place_is_refused_with_what_does(desk: Desk) -> None:
    van = {**S3_ROADSTER, "delivery": "van"}
    refusal = _refused(desk, desk.drafted((van, 1), place=DeliveryPlace("FR")), DeliveryContradicts)
    assert (refusal.facts["line"], refusal.facts["choice"], refusal.facts["country"]) == (1, "van", "FR")
    assert "port" in refusal.facts["fitting"]


@pytest.mark.parametrize(
    ("delivery", "packing", "country", "path"),
    [
        ("port", "frame", "GB", "delivery_place.country"),  # sent abroad, and nobody said where
        ("collected", "dolly", "", "customer.country"),  # who collects, from where?
    ],
)
def test_a_place_or_country_that_is_missing_is_asked_for(
    desk: Desk, delivery: str, packing: str, country: str, path: str
) -> None:
    chosen = {**S3_ROADSTER, "delivery": delivery, "packing": packing}
    number = desk.drafted((chosen, 1), wish=desk.wish(country=country), place=DeliveryPlace())
    with pytest.raises(BadInput) as refused:
        desk.issue(number)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [(path, "required")]


def test_tax_that_a_person_must_decide_may_go_out_with_both_totals(desk: Desk) -> None:
    """Case 19."""
    issued = desk.issue(desk.drafted((S3_ROADSTER, 1), wish=desk.wish(country="FR"), place=DeliveryPlace()))
    assert issued.totals is not None
    assert (issued.totals.decided, len(issued.totals.cases)) == (False, 2)


def test_a_refused_revision_stays_a_draft_with_nothing_frozen(desk: Desk) -> None:
    number = desk.drafted(({**S3_ROADSTER, "roof": "folding"}, 1))
    before = desk.revision(number)
    _refused(desk, number, CannotBeBuilt)
    assert desk.revision(number) == before


def test_issuing_what_was_edited_meanwhile_is_refused(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    with pytest.raises(ChangedByAnother):
        quoting.issue(desk.store, CLERK, number, "A", NOW, expected=1)


def test_an_issued_revision_is_not_issued_again(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    issued = desk.issue(number)
    with pytest.raises(Frozen):
        quoting.issue(desk.store, CLERK, number, "A", NOW, expected=issued.version)


def test_a_tool_that_breaks_while_the_paper_is_made_is_in_what_goes_out(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The paper is made outside the lock; what it was made from is looked at again inside it."""
    number, pdf = desk.drafted((S3_ROADSTER, 1)), papering.pdf
    breaks = iter((True,))

    def slowly(sheetful: papering.Sheetful, language: str, size: str) -> bytes:
        if next(breaks, False):
            tools.set_tool(desk.store, MANAGER, "outer-skins", ToolCondition.DOWN, NOW, note="Snapped.", expected=4)
        return pdf(sheetful, language, size)

    monkeypatch.setattr(papering, "pdf", slowly)
    issued = desk.issue(number)
    assert issued.tool_state == 5
    assert issued.lines[0].frozen is not None
    assert issued.lines[0].frozen.depends.tools == ("outer-skins",)


def test_a_paper_that_fails_leaves_the_draft_a_draft(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    before = desk.revision(number)

    def broken(*_: object) -> bytes:
        raise OSError("No fonts.")

    monkeypatch.setattr(papering, "pdf", broken)
    with pytest.raises(OSError, match="No fonts"):
        desk.issue(number)
    assert desk.revision(number) == before


def test_no_statement_whatever_changes_what_was_issued(desk: Desk) -> None:
    desk.issue(desk.drafted((S3_ROADSTER, 1), extras=(ExtraSold("photo-book", 1),)))
    for act in MEDDLING:
        with pytest.raises(sqlite3.IntegrityError, match=r"never changes|only grow|UNIQUE"), desk.store.writing() as db:
            db.execute(act)


def test_bayou_road_s_dollars_come_to_the_cent(desk: Desk) -> None:
    """Case 17: 14 994.50 and a deposit of 3 748.63."""
    chosen = {
        "body": "roadster",
        "market": "north-america",
        "series": "s4",
        "bumpers": "impact",
        "wheel-well": "shallow",
        "wipers": "three",
        "markers": "front-and-rear",
        "primer": "epoxy",
        "packing": "frame",
        "delivery": "port",
    }
    number = desk.drafted((chosen, 1), who=BAYOU, price_list="USD", place=DeliveryPlace("US"))
    issued = desk.issue(number, who=BAYOU)
    assert issued.totals is not None
    (case,) = issued.totals.cases
    assert (case.sum.payable, case.deposit, case.balance) == (14_994_50, 3_748_63, 11_245_87)


def test_a_usual_value_taken_over_stays_usual_in_what_is_frozen(desk: Desk) -> None:
    issued = desk.issue(desk.drafted((S3_ROADSTER, 1)))
    taken = issued.lines[0].specification.answers
    assert (taken["bonnet"].origin, taken["body"].origin) == (Origin.USUAL, Origin.CHOSEN)


def _dearer() -> str:
    """The same book with the roadster at 12 100 pounds."""
    dearer = TEXT.replace("11 850", "12 100").replace("11850", "12100")
    assert dearer != TEXT
    return dearer


def _refused(desk: Desk, number: str, kind: type[CannotIssue], who: object = CLERK) -> CannotIssue:
    with pytest.raises(kind) as refused:
        desk.issue(number, who=who)  # type: ignore[arg-type]
    return refused.value
