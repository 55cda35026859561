"""The rows of growth: every list, search and page with many quotations behind it, against the same with few.

Asked of the desk itself, signed in, without a network between: so nothing that is always the same hides what grows.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from shutil import copyfile
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

from flask.testing import FlaskClient

from app.config import CHEAP, Config
from app.factory import make_app, open_store
from app.store import retention
from app.store.folder import DATABASE
from demo.people import PEOPLE
from tests.bench.filled import MORE, NOW, filled
from tests.bench.rows import Row

FEW, MANY = 100, 100_000

#: Times that each question is asked, two of them beforehand; fewer where they take more than `LONGEST` seconds in all.
REPEATS, LONGEST = 13, 4.0


@dataclass(frozen=True)
class Question:
    """What is asked: `{quotation}`, `{order}`, `{customer}` … stand for one of the desk's own, the same in both."""

    name: str
    address: str
    who: str = "imogen"
    body: dict[str, str] | None = field(default=None, hash=False)

    @property
    def row(self) -> str:
        return f"store_growth_{self.name}"


QUESTIONS = (
    Question("quotations", "/api/quotations"),
    *(Question(f"quotations_{state}", f"/api/quotations?state={state}") for state in ("draft", "issued", "lapsed")),
    *(Question(f"quotations_{state}", f"/api/quotations?state={state}") for state in ("accepted", "declined")),
    Question("quotations_by_name", "/api/quotations?q=tarrant"),
    Question("quotations_by_common_name", "/api/quotations?q={surname}"),
    Question("quotations_by_two_words", "/api/quotations?q={first}+{surname}"),
    Question("quotations_by_state_and_name", "/api/quotations?q={surname}&state=draft"),
    Question("quotations_by_number", "/api/quotations?q={quotation}"),
    Question("quotations_by_year", "/api/quotations?q=2026"),
    Question("quotations_by_donor", "/api/quotations?q={car}"),
    Question("quotations_by_telephone", "/api/quotations?q=%2B44+1632+960302"),
    Question("quotations_by_order", "/api/quotations?q={order}"),
    Question("quotations_by_two_letters", "/api/quotations?q=ta"),
    Question("quotations_by_nothing_found", "/api/quotations?q=zebrawood"),
    Question("enquiries", "/api/enquiries"),
    Question("enquiries_by_name", "/api/enquiries?q=tarrant"),
    Question("enquiries_by_number", "/api/enquiries?q={quotation}"),
    Question("enquiries_by_donor", "/api/enquiries?q={car}"),
    Question("customers", "/api/customers"),
    Question("customers_by_name", "/api/customers?q=tarrant"),
    Question("customers_by_telephone", "/api/customers?q=%2B44+1632+960302"),
    Question("customers_alike", "/api/customers/alike", body={"name": "Mrs {name}-Fell", "country": "GB"}),
    Question("one_customer", "/api/customers/{customer}"),
    Question("orders", "/api/orders"),
    Question("orders_by_number", "/api/orders?q={order}"),
    Question("orders_by_name", "/api/orders?q=tarrant"),
    Question("one_order", "/api/orders/{order}"),
    Question("order_dates", "/api/orders/{order}/promises"),
    Question("one_quotation", "/api/quotations/{quotation}"),
    Question("one_revision", "/api/quotations/{quotation}/revisions/A"),
    Question("letters", "/api/quotations/{quotation}/revisions/A/letters"),
    Question("approvals", "/api/approvals", "piers"),
    Question("approvals_waiting", "/api/approvals?stage=waiting", "piers"),
    Question("approvals_granted", "/api/approvals?stage=granted", "piers"),
    Question("chasing", "/api/chasing"),
    Question("chasing_lapsed", "/api/chasing?which=lapsed"),
    Question("work_to_come", "/api/work-to-come", "tomasz"),
    Question("work_to_come_by_name", "/api/work-to-come?q=tarrant", "tomasz"),
    Question("dealers_quotations", "/api/quotations", "greta"),
    Question("dealers_quotations_issued", "/api/quotations?state=issued", "greta"),
    Question("dealers_quotations_by_name", "/api/quotations?q={first}+{surname}", "greta"),
    Question("dealers_enquiries", "/api/enquiries", "greta"),
    Question("dealers_customers", "/api/customers", "greta"),
    Question("dealers_orders", "/api/orders", "greta"),
    Question("dealers_approvals", "/api/approvals", "greta"),
    Question("dealers_chasing", "/api/chasing", "greta"),
    Question("donor_elsewhere", "/api/donor-elsewhere?number={car}"),
    Question("behind_a_code", "/api/codes/{code}"),
    Question("about_to_lapse", "/api/about-to-lapse", "piers"),
    Question("session", "/api/session", "piers"),
    Question("retention", "/api/retention", "piers"),
    Question("bookkeeping_month", "/api/bookkeeping.csv?since=2026-11-01&until=2026-11-30", "piers"),
    Question("floor", "/api/floor", "tomasz"),
    Question("calendar", "/api/calendar", "tomasz"),
    Question("open_orders", "/api/open-orders", "greta"),
    Question("requests", "/api/requests"),
    Question("requests_waiting", "/api/requests?waiting=1"),
    Question("dealers_requests", "/api/requests", "themba"),
    Question("stock_shells", "/api/stock-shells"),
    Question("watching", "/api/watching?since=2026-11-01&until=2026-11-30", "piers"),
    Question("tool_consequences", "/api/tools/roadster-deck/consequences?state=down", "piers"),
)

#: Of those who share name and car, so many in every desk that they fill a page.
_OF_A_PAGE = f"telephone = '+44 1632 {MORE}'"

_OWN = {
    "quotation": "SELECT number FROM quotations WHERE standing = 'issued' ORDER BY id DESC LIMIT 1",
    "order": "SELECT number FROM orders ORDER BY id DESC LIMIT 1",
    "customer": "SELECT max(id) FROM customers",
    "name": "SELECT name FROM customers WHERE country = 'GB' AND dealer IS NULL ORDER BY id DESC LIMIT 1",
    "often": f"SELECT name FROM customers WHERE {_OF_A_PAGE} LIMIT 1",
    "car": f"SELECT car FROM enquiries JOIN customers ON customers.id = customer WHERE {_OF_A_PAGE} LIMIT 1",
    "code": "SELECT code FROM revisions WHERE code IS NOT NULL ORDER BY id DESC LIMIT 1",
}


class Desk:
    """A filled desk: its app, and whoever has signed in."""

    def __init__(self, data: Path) -> None:
        config = Config(data, url="http://localhost", clock=lambda: NOW, cost=CHEAP)
        self.store = open_store(config)
        self.app = make_app(config, self.store)
        with self.store.writing() as kept:
            retention.keep_for(kept, 12, "piers", NOW)
        self._readers: dict[str, tuple[FlaskClient, dict[str, str]]] = {}
        with closing(sqlite3.connect(data / DATABASE)) as db:
            self.own = {name: db.execute(sql).fetchone()[0] for name, sql in _OWN.items()}
        self.own["first"], self.own["surname"] = self.own["often"].split()

    def span(self, question: Question) -> float:
        """Milliseconds of processor time of one answer: what else the machine does is in none of them."""
        client, headers = self._signed_in(question.who)
        address = question.address.format(**self.own)
        began = process_time()
        if question.body is None:
            answer = client.get(address, headers=headers)
        else:
            body = {name: text.format(**self.own) for name, text in question.body.items()}
            answer = client.post(address, json=body, headers=headers)
        spent = (process_time() - began) * 1000
        assert answer.status_code == 200, (address, answer.get_data(as_text=True))
        return spent

    def _signed_in(self, name: str) -> tuple[FlaskClient, dict[str, str]]:
        if name not in self._readers:
            client, own = self.app.test_client(), {"Origin": "http://localhost"}
            password = next(password for person, password in PEOPLE if person.name == name)
            made = client.post("/api/session", json={"name": name, "password": password}, headers=own)
            headers = {**own, "X-Forgery-Token": made.get_json()["forgery_token"]}
            client.patch("/api/session", json={"prices_shown": True}, headers=headers)
            self._readers[name] = (client, headers)
        return self._readers[name]


@contextmanager
def _desk(database: Path) -> Iterator[Desk]:
    """On a copy: signing in writes."""
    with TemporaryDirectory(dir=database.parent) as folder:
        copyfile(database, Path(folder) / DATABASE)
        desk = Desk(Path(folder))
        yield desk
        desk.store.close()


def growth(
    few: int = FEW,
    many: int = MANY,
    repeats: int = REPEATS,
    questions: Sequence[Question] = QUESTIONS,
    *,
    make: Callable[[int], Path] = filled,
) -> Iterator[Row]:
    """Ratio: with many ÷ with few. `make`: the database of a desk with so many quotations."""
    with _desk(make(few)) as small, _desk(make(many)) as large:
        for question in questions:
            quick, slow = _spans(small, large, question, repeats)
            note = f"{many} quotations, reference: {few}; ratio: many ÷ few, aim ≤ 3"
            yield Row(question.row, round(slow, 2), "ms", round(quick, 2), round(slow / quick, 2), note)


def _spans(small: Desk, large: Desk, question: Question, repeats: int) -> tuple[float, float]:
    """The medians of both, asked in turn: whatever else the machine does, it does to both."""
    quick, slow, until = list[float](), list[float](), perf_counter() + LONGEST
    while len(quick) < min(3, repeats) or (len(quick) < repeats and perf_counter() < until):
        quick.append(small.span(question))
        slow.append(large.span(question))
    beforehand = min(2, repeats - 1)
    return median(quick[beforehand:]), median(slow[beforehand:])
