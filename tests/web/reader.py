"""Somebody at the desk, without a socket in between: the acts that tests of the web are made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

ENQUIRY: dict[str, Any] = {
    "customer": {"name": "Aldous Fenn", "country": "GB", "language": "en"},
    "donor": {"number_text": "T3-12044", "series": "s3", "number": 12044, "established": True, "gearbox": "manual"},
}
S3_HOME_ROADSTER = {"series": "s3", "market": "home", "body": "roadster"}


def fresh_key() -> dict[str, str]:
    return {"Idempotency-Key": uuid4().hex}


@dataclass
class Reader:
    http: FlaskClient
    headers: dict[str, str] = field(default_factory=dict)

    def sign_in(self, name: str, password: str) -> TestResponse:
        answer = self.post("/api/session", {"name": name, "password": password})
        if answer.status_code == 200:
            self.headers["X-Forgery-Token"] = answer.get_json()["forgery_token"]
        return answer

    def send(self, method: str, path: str, body: Any = None, **headers: str) -> TestResponse:
        """`body`: bytes as they are, anything else as JSON."""
        sent = {**self.headers, **{name.replace("_", "-"): value for name, value in headers.items()}}
        content: Any = {"data": body} if isinstance(body, bytes) else {"json": body}
        return self.http.open(path, method=method, headers=sent, buffered=True, **content)

    def get(self, path: str, **headers: str) -> TestResponse:
        return self.send("GET", path, **headers)

    def post(self, path: str, body: Any = None, **headers: str) -> TestResponse:
        return self.send("POST", path, body, **headers)

    def put(self, path: str, body: Any, **headers: str) -> TestResponse:
        return self.send("PUT", path, body, **headers)

    def patch(self, path: str, body: Any, **headers: str) -> TestResponse:
        return self.send("PATCH", path, body, **headers)

    def enquiry(self, **customer: Any) -> dict[str, Any]:
        """A new enquiry."""
        body = {**ENQUIRY, "customer": {**ENQUIRY["customer"], **customer}}
        answer = self.post("/api/enquiries", body, **fresh_key())
        assert answer.status_code == 201, answer.text
        return dict(answer.get_json())

    def specification(self, **chosen: str) -> dict[str, Any]:
        """The usual home S3 roadster, with these choices over it; `_` stands for the hyphen."""
        keys = S3_HOME_ROADSTER | {key: chosen[key] for key in S3_HOME_ROADSTER if key in chosen}
        usual = self.post("/api/usual", keys).get_json()["values"]
        taken = {option: {"choice": choice, "origin": "usual"} for option, choice in usual.items()}
        named = {"packing": "dolly", "delivery": "van"} | {o.replace("_", "-"): c for o, c in chosen.items()}
        return taken | {option: {"choice": choice, "origin": "chosen"} for option, choice in named.items()}

    def quotation(self, price_list: str = "GBP", country: str = "GB", **chosen: str) -> str:
        """The number of a new quotation with one complete shell on its draft A, at version 2."""
        place = {"country": country}
        path = f"/api/enquiries/{self.enquiry()['id']}/quotations"
        made = self.post(path, {"price_list": price_list, "delivery_place": place}, **fresh_key())
        assert made.status_code == 201, made.text
        number = str(made.get_json()["number"])
        lines = [{"specification": self.specification(**chosen), "quantity": 1}]
        body = {"price_list": price_list, "delivery_place": place, "lines": lines}
        saved = self.put(f"/api/quotations/{number}/revisions/A", body, If_Match='"1"')
        assert saved.status_code == 200, saved.text
        return number

    def issue(self, number: str, letter: str = "A", version: int = 2) -> TestResponse:
        path = f"/api/quotations/{number}/revisions/{letter}/issue"
        return self.post(path, If_Match=f'"{version}"', **fresh_key())
