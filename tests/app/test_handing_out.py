"""Papers: the customer's own is stored at issue, any other when somebody first asks, and none ever changes."""

from __future__ import annotations

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from hashlib import sha256
from threading import Barrier

import pytest

from app.domain.customers.customer import Customer
from app.domain.quotations.enquiry import Wish
from app.domain.quotations.quotation import DeliveryPlace, PaperKept
from app.services.books import publishing, tools
from app.services.quotations import enquiring, handing_out, papering, quoting
from app.store import dealers
from demo.loading import BOOK
from rules.model import ToolCondition
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk

PORT = {**S3_ROADSTER, "packing": "frame", "delivery": "port"}
LATER = NOW + timedelta(days=50)


@pytest.mark.parametrize(
    ("customer", "place", "kind"),
    [
        (Customer("A", country="GB"), "GB", ("en", "a4")),
        (Customer("A", country="DE", language="de"), "DE", ("de", "a4")),
        (Customer("A", country="US"), "US", ("en", "letter")),
        (Customer("A", country="CA"), "FR", ("en", "letter")),  # a Canadian who has it sent to France
        (Customer("A", country="GB", language="de"), "MX", ("de", "letter")),
    ],
)
def test_issuing_stores_the_customer_s_own_paper_and_no_other(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, customer: Customer, place: str, kind: tuple[str, str]
) -> None:
    monkeypatch.setattr(papering, "pdf", lambda _, language, size: f"{language} {size}".encode())
    chosen = S3_ROADSTER if place == "GB" else PORT
    issued = desk.issue(desk.drafted((chosen, 1), wish=Wish(customer), place=DeliveryPlace(place)))
    assert issued.papers == (PaperKept(*kind, sha256(" ".join(kind).encode()).hexdigest()),)


def test_a_paper_drawn_later_is_byte_for_byte_what_issuing_would_have_stored(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between issue and asking everything that can change has changed."""
    number = desk.drafted((S3_ROADSTER, 1), wish=desk.wish(dealer="hollin-lane"))
    at_issue: dict[tuple[str, str], bytes] = {}
    draw = papering.pdf

    def all_of_them(sheetful: papering.Sheetful, language: str, size: str) -> bytes:
        at_issue.update({kind: draw(sheetful, *kind) for kind in papering.kinds(sheetful.worked.deal.book)})
        return at_issue[(language, size)]

    with monkeypatch.context() as patched:
        patched.setattr(papering, "pdf", all_of_them)
        desk.issue(number)
    _change_everything(desk, number)
    assert set(at_issue) == {("en", "a4"), ("en", "letter"), ("de", "a4"), ("de", "letter")}
    for kind, pdf in at_issue.items():
        assert handing_out.paper(desk.store, MANAGER, number, "A", *kind, LATER) == pdf, kind
    kept = {(paper.language, paper.size): paper.sha256 for paper in desk.revision(number).papers}
    assert kept == {kind: sha256(pdf).hexdigest() for kind, pdf in at_issue.items()}


def test_what_was_stored_is_served_and_never_drawn_again(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    first = handing_out.paper(desk.store, CLERK, number, "A", "de", "letter", NOW)

    def never(*_: object) -> bytes:
        raise AssertionError("drawn again")

    monkeypatch.setattr(papering, "pdf", never)
    assert handing_out.paper(desk.store, CLERK, number, "A", "de", "letter", LATER) == first
    assert handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", LATER).startswith(b"%PDF-")


def test_of_two_who_first_ask_at_once_one_s_paper_is_kept_and_both_get_it(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    number, drawn = desk.drafted((S3_ROADSTER, 1)), Barrier(2)
    desk.issue(number)
    own = iter((b"one", b"other"))

    def at_the_same_time(*_: object) -> bytes:
        drawn.wait(20)
        return next(own)

    monkeypatch.setattr(papering, "pdf", at_the_same_time)
    with ThreadPoolExecutor(2) as threads:
        asked = [threads.submit(handing_out.paper, desk.store, CLERK, number, "A", "de", "a4", NOW) for _ in range(2)]
        got = {one.result() for one in asked}
    assert got in ({b"one"}, {b"other"})
    assert len(desk.revision(number).papers) == 2


def test_a_draft_s_paper_is_not_kept(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", NOW)
    assert desk.revision(number).papers == ()
    with pytest.raises(sqlite3.IntegrityError, match="a draft has neither"), desk.store.writing() as db:
        db.execute("INSERT INTO papers (revision, language, size, sha256, pdf) VALUES (1, 'en', 'a4', '', x'00')")


def test_issuing_may_leave_even_the_customer_s_own_to_whoever_asks_first(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    issued = quoting.issue(desk.store, CLERK, number, "A", NOW, expected=2, draw=False)
    assert issued.papers == ()
    assert handing_out.paper(desk.store, CLERK, number, "A", "en", "a4", LATER).startswith(b"%PDF-")
    assert len(desk.revision(number).papers) == 1


def _change_everything(desk: Desk, number: str) -> None:
    """The customer, the book, a tool, the firm, the dealer, and a later revision: none of it may show."""
    enquiring.edit_enquiry(desk.store, CLERK, 1, desk.wish("Somebody Else", country="US"), NOW, expected=1)
    publishing.publish_book(desk.store, MANAGER, BOOK.read_text(encoding="utf-8").replace("11 850", "12 100"), NOW)
    tools.set_tool(desk.store, MANAGER, "outer-skins", ToolCondition.LOST, NOW, note="Scrapped.", expected=4)
    with desk.store.writing() as db:
        dealers.put_firm(db, {"name": "Another Firm"})
    tools.set_tool(desk.store, MANAGER, "outer-skins", ToolCondition.OK, NOW, expected=5)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    quoting.issue(desk.store, CLERK, number, "B", NOW, expected=1, draw=False)
