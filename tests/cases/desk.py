"""One signed-in person at the HTTP desk: the few acts the cases are made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

import requests

Choices = dict[str, str]


@dataclass
class Desk:
    """`url` of the running product; `name` and `password` of a demo person."""

    url: str
    name: str
    password: str
    http: requests.Session = field(default_factory=requests.Session)

    def __post_init__(self) -> None:
        signed = self.http.post(f"{self.url}/api/session", json={"name": self.name, "password": self.password})
        assert signed.status_code == 200, signed.text
        self.http.headers["X-Forgery-Token"] = signed.json()["forgery_token"]

    def show_prices(self) -> None:
        assert self.send("PATCH", "/api/session", {"prices_shown": True})["prices_shown"] is True

    def send(
        self, method: str, path: str, body: Any = None, headers: dict[str, str] | None = None, *, expect: int = 200
    ) -> Any:
        """The JSON of an answer with the status expected."""
        answer = self.http.request(method, self.url + path, json=body, headers=headers)
        assert answer.status_code == expect, f"{method} {path}: {answer.status_code} {answer.text}"
        return answer.json() if answer.content else None

    def get(self, path: str) -> Any:
        return self.send("GET", path)

    def create(self, path: str, body: Any) -> Any:
        return self.send("POST", path, body, {"Idempotency-Key": uuid4().hex}, expect=201)

    def read_number(self, text: str) -> Any:
        return self.send("POST", "/api/donor-numbers", {"text": text})

    def usual(self, donor: Any = None, **keys: str) -> Choices:
        body = {**keys, "donor": donor or {}}
        return self.send("POST", "/api/usual", body)["values"]

    def ask(self, chosen: Choices, *, taken_over: Choices | None = None, **context: Any) -> Any:
        """The full answer; `taken_over` are usual values, beneath what is chosen."""
        answers = {o: {"choice": c, "origin": "usual"} for o, c in (taken_over or {}).items()}
        answers |= {o: {"choice": c, "origin": "chosen"} for o, c in chosen.items()}
        return self.send("POST", "/api/answers", {"specification": answers, **context})

    def as_original(self, chosen: Choices, donor: Any = None, **context: Any) -> Any:
        """The full answer with every question not chosen answered as the original car was."""
        keys = {k: chosen[k] for k in ("series", "market", "body")}
        usual = self.usual(donor, **keys)
        return self.ask(chosen, taken_over=usual, donor=donor or {}, **context)


def choice_of(answer: Any, option: str, choice: str) -> Any:
    """How one choice stands."""
    return next(c for o in answer["options"] if o["option"] == option for c in o["choices"] if c["choice"] == choice)


def only_case(answer: Any) -> Any:
    """The one tax case of a total that needs no person to decide."""
    totals = answer["totals"]
    assert totals["decided"] is True
    (case,) = totals["tax_cases"]
    return case


@dataclass
class Quoted:
    """One quotation of a desk, its draft filled with whole shells."""

    desk: Desk
    number: str

    @property
    def revision(self) -> str:
        return f"/api/quotations/{self.number}/revisions/A"

    def fill(self, *shells: tuple[Choices, int], **draft: Any) -> Any:
        """The saved draft; each shell a specification in full and how many."""
        read = self.desk.get(self.revision)
        lines = [
            {"specification": {o: {"choice": c, "origin": "chosen"} for o, c in spec.items()}, "quantity": many}
            for spec, many in shells
        ]
        body = {"price_list": read["price_list"], "delivery_place": read["delivery_place"], "lines": lines, **draft}
        return self.desk.send("PUT", self.revision, body, {"If-Match": f'"{read["version"]}"'})

    def issue(self, expect: int = 200) -> Any:
        read = self.desk.get(self.revision)
        headers = {"If-Match": f'"{read["version"]}"', "Idempotency-Key": uuid4().hex}
        return self.desk.send("POST", f"{self.revision}/issue", None, headers, expect=expect)


def quote(
    desk: Desk, customer: Any, *, price_list: str = "GBP", to: str = "GB", donor: Any = None, region: str = ""
) -> Quoted:
    """A new enquiry and its quotation with an empty draft."""
    enquiry = desk.create("/api/enquiries", {"customer": customer, "donor": donor or {}})
    place = {"country": to, "region": region}
    made = desk.create(
        f"/api/enquiries/{enquiry['id']}/quotations", {"price_list": price_list, "delivery_place": place}
    )
    return Quoted(desk, made["number"])


def private(country: str = "GB", name: str = "Maud Ferrier") -> Any:
    return {"name": name, "trade": False, "country": country, "language": "en"}


def trade(dealer: str, country: str, name: str) -> Any:
    return {"name": name, "trade": True, "country": country, "language": "en", "dealer": dealer}
