"""An order at the HTTP desk: the few acts the cases about its money are made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from tests.cases.desk import Choices, Desk, Quoted


@dataclass
class Ordered:
    """An order that a desk's quotation has become."""

    desk: Desk
    number: str
    quoted: Quoted

    def read(self) -> Any:
        return self.desk.get(f"/api/orders/{self.number}")

    def post(self, path: str, body: Any = None, *, expect: int = 201) -> Any:
        """The order after it, or the problem."""
        key = {"Idempotency-Key": uuid4().hex}
        return self.desk.send("POST", f"/api/orders/{self.number}{path}", body, key, expect=expect)

    def pay(self, amount: int, currency: str, day: str = "2026-11-24", **more: str) -> Any:
        return self.post(
            "/payments", {"amount": amount, "currency": currency, "day": day, "means": "bank-transfer", **more}
        )

    def deposit(self, amount: int, currency: str, day: str = "2026-11-24") -> Any:
        """The document of a payment that has just come."""
        payment = self.pay(amount, currency, day)["payments"][-1]
        return self.post("/deposit-invoices", {"payment": payment["id"]})["documents"][-1]

    def invoice(self) -> Any:
        return self.post("/invoices")["documents"][-1]


def ordered(quoted: Quoted, *shells: tuple[Choices, int]) -> Ordered:
    """Filled, issued and accepted."""
    quoted.fill(*shells)
    quoted.issue()
    accept(quoted, "A")
    number = quoted.desk.get(f"/api/quotations/{quoted.number}/order")["number"]
    return Ordered(quoted.desk, number, quoted)


def revised(order: Ordered, *shells: tuple[Choices, int]) -> str:
    """The letter of the next revision, issued in the place of what was accepted."""
    desk, at = order.desk, f"/api/quotations/{order.quoted.number}/revisions"
    read = desk.create(at, {})
    lines = [
        {"specification": {o: {"choice": c, "origin": "chosen"} for o, c in spec.items()}, "quantity": many}
        for spec, many in shells
    ]
    body = {"price_list": read["price_list"], "delivery_place": read["delivery_place"], "lines": lines}
    saved = desk.send("PUT", f"{at}/{read['letter']}", body, {"If-Match": f'"{read["version"]}"'})
    headers = {"If-Match": f'"{saved["version"]}"', "Idempotency-Key": uuid4().hex}
    desk.send("POST", f"{at}/{read['letter']}/issue", {"replaces_yes": True}, headers)
    return str(read["letter"])


def accept(quoted: Quoted, letter: str) -> None:
    at = f"/api/quotations/{quoted.number}/revisions/{letter}"
    version = quoted.desk.get(at)["version"]
    headers = {"If-Match": f'"{version}"', "Idempotency-Key": uuid4().hex}
    quoted.desk.send("POST", f"{at}/accept", {"said_by": "The customer"}, headers)
