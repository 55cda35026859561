"""A demo firm for each test of the web: its own copy of a data folder that was filled once."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask

from app.config import CHEAP, Config
from app.domain.orders.confirming import Fixed
from app.factory import hasher_of, make_app, open_store, parts_of
from app.services.people import signing_in
from app.store import confirmations, sheet_codes
from app.store.db import Store
from demo.loading import set_up
from demo.people import PEOPLE
from tests.web.reader import Reader, fresh_key

#: Applications that no desk has in use. To put one together takes a third of a second, nearly all of it for the
#: interface's document, and hangs on neither folder nor clock: so each is used again, with the next desk's parts.
IDLE: list[Flask] = []

START = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


@dataclass
class MovingClock:
    """A clock that goes on only when told to."""

    at: datetime = START

    def __call__(self) -> datetime:
        return self.at

    def pass_seconds(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)


@dataclass
class Desk:
    """A desk under test: `signed_in(name)` gives a reader, `stranger()` one whom nobody knows."""

    config: Config
    store: Store
    clock: MovingClock
    passwords: dict[str, str] = field(default_factory=lambda: {person.name: password for person, password in PEOPLE})

    def __post_init__(self) -> None:
        self.app = IDLE.pop() if IDLE else make_app(self.config, self.store)
        self.app.extensions["desk"] = parts_of(self.config, self.store)

    def stranger(self) -> Reader:
        return Reader(self.app.test_client())

    def signed_in(self, name: str, *, prices: bool = False) -> Reader:
        reader = self.stranger()
        reader.sign_in(name, self.passwords[name])
        if prices:
            assert reader.patch("/api/session", {"prices_shown": True}).status_code == 200
        return reader


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the demo firm's book, dealers and people, and no work in hand."""
    config = Config(tmp_path_factory.mktemp("filled"), cost=CHEAP)
    store, hasher = open_store(config), hasher_of(CHEAP)
    with store.writing():
        set_up(store, START - timedelta(days=30))
        for person, password in PEOPLE:
            signing_in.add_person(store, hasher, person, password, START)
    store.close()
    return config.data


@dataclass(frozen=True)
class Work:
    """What `OWNER` has in hand in the folder `data`: an enquiry, a draft, an issued quotation and its paper's code.

    `order`: of a quotation that was accepted; `payment`: received for it, billed by `document`; `worksheet`: of it.
    `shell`: of the order, which is confirmed.
    """

    data: Path
    enquiry: int
    draft: str
    issued: str
    code: str
    accepted: str
    order: str
    payment: int
    document: str
    worksheet: str
    shell: int


OWNER = "greta"

#: The change note that waits of it.
NOTE = "CN-2026-00001"

#: On the sheet of the shell of that order.
SHEET_CODE = "on-a-sheet-of-ours"


@pytest.fixture(scope="session")
def worked(filled: Path, tmp_path_factory: pytest.TempPathFactory) -> Work:
    """The filled folder with a dealer's work in it."""
    data = tmp_path_factory.mktemp("worked") / "data"
    with opened(filled, data) as desk:
        owner = desk.signed_in(OWNER, prices=True)
        enquiry = owner.enquiry(country="DE")["id"]
        shell = {"delivery": "port", "packing": "frame", "wheel_well": "shallow"}  # which waits for A4
        draft, issued = (owner.quotation("EUR", "DE", **shell) for _ in range(2))
        assert owner.issue(issued).status_code == 200
        with desk.store.reading() as db:
            code = db.execute("SELECT code FROM revisions WHERE code IS NOT NULL").fetchone()[0]
        accepted = owner.quotation("EUR", "DE", delivery="port", packing="frame", own_doors="yes")
        order = _order(desk, owner, accepted)
    return Work(data, enquiry, draft, issued, code, accepted, *order)


def _order(desk: Desk, owner: Reader, quotation: str) -> tuple[str, int, str, str, int]:
    """Number, payment, document, worksheet and shell of the order that accepting it makes."""
    owner.issue(quotation)
    at, office = f"/api/quotations/{quotation}", desk.signed_in("piers")
    said = {"said_by": "Greta Lindenhof"}
    assert owner.post(f"{at}/revisions/A/accept", said, If_Match='"3"', **fresh_key()).status_code == 200
    order = owner.get(f"{at}/order").get_json()["number"]
    paid = {"amount": 1_000_00, "currency": "EUR", "day": "2026-11-20", "means": "card"}
    payment = office.post(f"/api/orders/{order}/payments", paid, **fresh_key()).get_json()["payments"][0]["id"]
    billed = office.post(f"/api/orders/{order}/deposit-invoices", {"payment": payment}, **fresh_key()).get_json()
    kept = {"kept": 0, "why": "Cancelled."}
    sheet = office.post(f"/api/orders/{order}/refund-worksheets", kept, **fresh_key()).get_json()
    shell = sheet["lines"][0]["shells"][0]["id"]
    with desk.store.writing() as db:
        confirmations.add(db, 1, Fixed(date(2026, 11, 20), "Piers Adeyemi", 0, 0, ()), "", "piers", START)
        sheet_codes.code_of(db, shell, SHEET_CODE, START)
    noted = {"choices": {"bonnet": "aluminium"}, "why": "He saw one."}
    assert office.post(f"/api/shells/{shell}/change-notes", noted, **fresh_key()).status_code == 201
    return order, payment, billed["documents"][-1]["number"], sheet["documents"][-1]["number"], shell


@pytest.fixture
def desk(filled: Path, tmp_path: Path) -> Iterator[Desk]:
    with opened(filled, tmp_path / "data") as desk:
        yield desk


@pytest.fixture
def busy_desk(worked: Work, tmp_path: Path) -> Iterator[Desk]:
    """A desk with a dealer's work in hand."""
    with opened(worked.data, tmp_path / "data") as desk:
        yield desk


@contextmanager
def opened(source: Path, data: Path) -> Iterator[Desk]:
    """A desk on a copy of `source`."""
    shutil.copytree(source, data)
    clock = MovingClock()
    config = Config(data, url="http://localhost", clock=clock, cost=CHEAP)
    store = open_store(config)
    desk = Desk(config, store, clock)
    yield desk
    IDLE.append(desk.app)
    store.close()


@pytest.fixture
def clerk(desk: Desk) -> Reader:
    return desk.signed_in("imogen")
