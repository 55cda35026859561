"""Every route × role × own or another dealer's, compared with the one table of `app.domain.asking.people`.

The table is the expectation: a route that declares nothing, or does more or less than it declares, fails here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from app.domain.asking.people import MAY, Action, Role, Sort, reach
from app.domain.asking.people import Reach as Far
from tests.documents.test_photograph import file
from tests.web.conftest import NOTE, OWNER, SHEET_CODE, Desk, Work
from tests.web.reader import ENQUIRY, Reader, fresh_key

#: One person of each role; of dealers two, so that one can try for the other's.
WHO = {
    "imogen": Role.CLERK,
    "piers": Role.MANAGER,
    "tomasz": Role.LEAD,
    "oona": Role.INSPECTOR,
    "idris": Role.WELDER,
    "greta": Role.DEALER,
    "wade": Role.DEALER,
}


def declared(desk: Desk) -> Iterator[tuple[str, str, Any]]:
    """(method, rule, what it declares) of every view of the API."""
    for rule in desk.app.url_map.iter_rules():
        if rule.rule.startswith("/api/") and rule.endpoint != "openapi":
            view = desk.app.view_functions[rule.endpoint]
            for method in sorted((rule.methods or set()) - {"HEAD", "OPTIONS"}):
                yield method, rule.rule, getattr(view, "does", None)


#: A photograph as small as one may be.
PICTURE = file("PNG", (16, 16))
#: Bank details that nobody has confirmed to anybody: invented.
BANK = {
    "holder": "Vera Ambach",
    "account": "00 11 22 33",
    "how": "in-person",
    "spoken_to": "Vera Ambach",
    "day": "2026-11-24",
}

#: Of no shell that the tests make.
AT_FAULT = {"subject": "zone", "of": "z-window-small", "why": {"en": "The ring may come loose."}}
SHELL = "<int(max=999999999):shell>"

APPROVAL = "<int(max=999999999):approval>"


#: Before the address of the thing whose version a header names.
OF = "version of "


def _of(path: str) -> str:
    return f"{OF}{path}"


class Tries:
    """A good request for every route, on things that belong to the owner."""

    def __init__(self, desk: Desk, work: Work) -> None:
        self.enquiry, self.draft, self.issued, self.code = work.enquiry, work.draft, work.issued, work.code
        self.owner = desk.signed_in(OWNER, prices=True)
        self.work = work
        self.approval = self.owner.get("/api/approvals").get_json()["approvals"][0]["approval"]["id"]
        self.asked_of = f"/api/quotations/{self.owner.quotation('EUR', 'DE', delivery='port', packing='frame')}"
        asked = self.owner.post(f"{self.asked_of}/revisions/A/requests", {}, **fresh_key()).get_json()
        made = self.owner.post("/api/tokens", {"label": "Our shop", "scopes": ["check"]}, **fresh_key()).get_json()
        self.request, self.token = asked["id"], made["id"]
        self.customers = [self._customer(name) for name in ("Vera Ambach", "Nils Oster", "Uta Brahm")]
        outlook = desk.signed_in("piers").get(f"/api/customers/{self.customers[2]}/erasure")
        at = f"/api/enquiries/{self.enquiry}/photographs"
        add = [self.owner.post(f"{at}?shows=plate", PICTURE, **fresh_key()).get_json() for _ in range(2)]
        self.photographs = [one["id"] for one in add]
        self.part = f"/api/parts/{work.accepted}/1.1/P2a"
        self.part_photograph = self._came(desk)
        self.book_draft = desk.signed_in("piers").send("POST", "/api/book-drafts", {}, **fresh_key()).get_json()["id"]
        proposed = desk.signed_in("maren").post("/api/bank-details", BANK, **fresh_key())
        self.bank = proposed.get_json()["waits"]["id"]
        self.stock = self._built_for_stock(desk.signed_in("piers"))
        surface = {"subject": "surface", "why": "A dent."}
        lead = desk.signed_in("tomasz")
        told = lead.post(f"/api/shells/{work.shell}/concessions", surface, **fresh_key()).get_json()
        photograph = f"/api/shells/{work.shell}/inspection/photographs"
        shown = lead.post(f"{photograph}?subject=surface", PICTURE, **fresh_key()).get_json()
        self.of_surface = f"{photograph}/{shown['photographs'][-1]['id']}"
        self.concession = told["concessions"][-1]["id"]
        self.stock, self.kept = (self._built_for_stock(desk.signed_in("piers")) for _ in range(2))
        self.erasure = {"why": "Asked for.", "seen": outlook.get_json()["seen"]}
        self.safety = self._at_fault(desk.signed_in("piers"))

    def _feeds(self, reader: Reader, rule: str, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """What is asked of calendar feeds: each revokes one of his own."""
        body, at = {"label": "My own"}, "/api/calendar-feeds"
        one, own = f"{at}/<int(max=999999999):feed>", 1
        if rule == one:
            own = reader.send("POST", at, body, **fresh_key()).get_json().get("id", 1)
        return {
            ("GET", at): (at, None, {}),
            ("POST", at): (at, body, keyed),
            ("DELETE", one): (f"{at}/{own}", None, {}),
        }

    def _line(self) -> dict[str, str]:
        return {"number": self.asked_of.rpartition("/")[2], "letter": "A"}

    def _built_for_stock(self, manager: Reader) -> int:
        manager.put("/api/stock-cap", {"cap": 100})
        made = manager.post("/api/stock-shells", self._line(), **fresh_key()).get_json()
        return max(int(one["id"]) for one in made["shells"])

    def _stock(self, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """What is asked of the stock: one is made, another withdrawn."""
        at, line = "/api/stock-shells", self._line()
        one = f"{at}/{SHELL}"
        return {
            ("GET", at): (at, None, {}),
            ("POST", at): (at, line, keyed),
            ("DELETE", one): (f"{at}/{self.stock}", None, {}),
            ("PUT", "/api/stock-cap"): ("/api/stock-cap", {"cap": 3}, {}),
            ("PUT", "/api/stock-hours"): ("/api/stock-hours", {"hours": 24}, {}),
            ("GET", "/api/orders/NUMBER/stock-offers"): (
                f"/api/orders/{self.work.order}/stock-offers?shell=1",
                None,
                {},
            ),
            ("POST", "/api/stock-matches"): ("/api/stock-matches", {"specification": {}}, {}),
            ("GET", "/api/quotations/NUMBER/stock"): (f"/api/quotations/{self.issued}/stock", None, {}),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/stock"): (
                f"{self.asked_of}/revisions/A/stock",
                {"shell": self.kept},
                {"If-Match": _of(f"{self.asked_of}/revisions/A"), **keyed},
            ),
            **{
                (method, f"{one}/{of}"): (f"{at}/{self.kept}/{of}", body, key)
                for of, body in (("reservation", None), ("allocation", {"order": self.work.order, "shell": 1}))
                for method, key in (("POST", keyed), ("DELETE", {}))
            },
            ("POST", f"/api/shells/{SHELL}/second"): (f"/api/shells/{self.work.shell}/second", {"why": "So."}, keyed),
        }

    def _at_fault(self, manager: Reader) -> int:
        return int(manager.post("/api/safety-faults", AT_FAULT, **fresh_key()).get_json()["id"])

    def _safety(self, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """What is asked of safety faults: of this one no shell was ever made."""
        at, one = "/api/safety-faults", "/api/safety-faults/<int(max=999999999):fault>"
        path, query = f"{at}/{self.safety}", "subject=zone&of=z-window-small"
        return {
            ("GET", at): (at, None, {}),
            ("POST", at): (at, AT_FAULT, keyed),
            ("GET", "/api/safety-subjects"): ("/api/safety-subjects", None, {}),
            ("GET", "/api/safety-consequences"): (f"/api/safety-consequences?{query}", None, {}),
            ("GET", one): (path, None, {}),
            ("POST", f"{one}/lifting"): (f"{path}/lifting", {"why": "Looked at."}, keyed),
            ("GET", f"{one}/owners"): (f"{path}/owners", None, {}),
            ("GET", f"{one}/owners.csv"): (f"{path}/owners.csv", None, {}),
            ("POST", f"{one}/owners/<int(max=999999999):shell>/written"): (f"{path}/owners/1/written", None, keyed),
        }

    def _leaving(self, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """What is asked of shells on their way out: this one is planned."""
        at, shell = "/api/shells/<int(max=999999999):shell>", f"/api/shells/{self.work.shell}"
        box = {"kind": "Dolly", "length": 4000, "width": 1650, "height": 1280, "mass": 352}
        credit = {"limit": 0, "currency": "EUR", "day": "2026-11-24", "why": "None any longer."}
        terms = {"hs_code": "8707.10", "origin": "GB", "damage_days": 5}
        dealer = "/api/dealers/<string(maxlength=40):dealer>/credit"
        return {
            ("GET", "/api/leaving"): ("/api/leaving", None, {}),
            ("GET", "/api/orders/NUMBER/leaving"): (f"/api/orders/{self.work.order}/leaving", None, {}),
            ("GET", f"{at}/leaving"): (f"{shell}/leaving", None, {}),
            ("GET", f"{at}/packing-proposals"): (f"{shell}/packing-proposals", None, {}),
            ("POST", f"{at}/packing"): (f"{shell}/packing", {"packages": [box], "net_mass": 296}, keyed),
            ("POST", f"{at}/despatch"): (f"{shell}/despatch", {"by": "idris", "code": "2468"}, keyed),
            ("POST", f"{at}/export-evidence"): (
                f"{shell}/export-evidence",
                {"what": "Certificate of shipment.", "day": "2026-11-24"},
                keyed,
            ),
            ("POST", f"{at}/export-evidence/withdrawal"): (
                f"{shell}/export-evidence/withdrawal",
                {"why": "Of another shell."},
                keyed,
            ),
            ("GET", f"{at}/leaving-papers/<string(maxlength=40):paper>"): (
                f"{shell}/leaving-papers/packing-list",
                None,
                {},
            ),
            ("GET", "/api/as-built/<string(maxlength=80):code>"): ("/api/as-built/none-of-ours", None, {}),
            ("GET", "/api/as-built/<string(maxlength=80):code>/text"): ("/api/as-built/none-of-ours/text", None, {}),
            ("GET", dealer): ("/api/dealers/lindenhof/credit", None, {}),
            ("POST", dealer): ("/api/dealers/lindenhof/credit", credit, keyed),
            ("GET", "/api/export-terms"): ("/api/export-terms", None, {}),
            ("PUT", "/api/export-terms"): ("/api/export-terms", terms, {}),
        }

    def _customer(self, name: str) -> int:
        made = self.owner.send("POST", "/api/enquiries", {"customer": {"name": name}}, **fresh_key()).get_json()
        return int(made["customer"]["id"])

    def send(self, reader: Reader, method: str, rule: str) -> int:
        keyed = fresh_key()
        draft, issued = f"/api/quotations/{self.draft}", f"/api/quotations/{self.issued}"
        body: dict[str, Any] = {"price_list": "EUR", "delivery_place": {"country": "DE"}}
        usual = {"series": "s3", "market": "home", "body": "roadster"}
        requests: dict[tuple[str, str], tuple[str, Any, dict[str, str]]] = {
            ("GET", "/api/session"): ("/api/session", None, {}),
            ("PATCH", "/api/session"): ("/api/session", {"language": "en"}, {}),
            ("GET", "/api/books/current"): ("/api/books/current", None, {}),
            ("GET", "/api/books/<int(max=999999999):number>"): ("/api/books/1", None, {}),
            ("GET", "/api/books/<int(max=999999999):number>/prices"): ("/api/books/1/prices", None, {}),
            ("GET", "/api/books"): ("/api/books", None, {}),
            ("GET", "/api/books/<int(max=999999999):number>/proof"): ("/api/books/1/proof", None, {}),
            ("GET", "/api/books/<int(max=999999999):number>/conditions"): ("/api/books/1/conditions", None, {}),
            ("GET", "/api/books/<int(max=999999999):number>/standard-shells"): (
                "/api/books/1/standard-shells",
                None,
                {},
            ),
            ("GET", "/api/books/<int(max=999999999):number>/standard-shells.csv"): (
                "/api/books/1/standard-shells.csv",
                None,
                {},
            ),
            ("GET", "/api/books/<int(max=999999999):number>/standard-shells.pdf"): (
                "/api/books/1/standard-shells.pdf",
                None,
                {},
            ),
            ("GET", "/api/books/<int(max=999999999):number>/against/<int(max=999999999):against>"): (
                "/api/books/1/against/1",
                None,
                {},
            ),
            ("GET", "/api/work-to-come"): ("/api/work-to-come", None, {}),
            ("GET", "/api/about-to-lapse"): ("/api/about-to-lapse", None, {}),
            ("GET", "/api/donor-elsewhere"): ("/api/donor-elsewhere?number=T3-12044", None, {}),
            ("GET", "/api/work-to-come/NUMBER"): (f"/api/work-to-come/{self.issued}", None, {}),
            ("GET", "/api/tools"): ("/api/tools", None, {}),
            ("PUT", "/api/tools/<string:tool_id>"): (
                "/api/tools/coupe-roof",
                {"state": "ok", "note": "looked at"},
                {"If-Match": _of("/api/tools")},
            ),
            ("GET", "/api/tools/<string:tool_id>/consequences"): (
                "/api/tools/coupe-roof/consequences?state=down",
                None,
                {},
            ),
            ("POST", "/api/donor-numbers"): ("/api/donor-numbers", {"text": "T3-12044"}, {}),
            ("POST", "/api/usual"): ("/api/usual", usual, {}),
            ("POST", "/api/answers"): ("/api/answers", {"specification": {}}, {}),
            ("POST", "/api/reasons"): ("/api/reasons", {"specification": {}}, {}),
            ("POST", "/api/whys"): ("/api/whys", {"specification": {}, "option": "body"}, {}),
            ("POST", "/api/alternatives"): ("/api/alternatives", {"specification": {}}, {}),
            ("POST", "/api/drawings"): ("/api/drawings", {"specification": {}}, {}),
            ("POST", "/api/pictures"): ("/api/pictures", {"specification": {}}, {}),
            ("POST", "/api/donor-parts"): ("/api/donor-parts", {"specification": {}}, {}),
            ("GET", "/api/countries"): ("/api/countries", None, {}),
            **self._orders(keyed),
            **self._feeds(reader, rule, keyed),
            **self._stock(keyed),
            **self._safety(keyed),
            **self._leaving(keyed),
            **self._book_drafts(keyed),
            **self._customers(),
            **self._photographs(keyed),
            ("POST", "/api/promises"): ("/api/promises", {"specification": {}}, {}),
            ("GET", "/api/dealers"): ("/api/dealers", None, {}),
            ("GET", "/api/enquiries"): ("/api/enquiries", None, {}),
            ("POST", "/api/enquiries"): ("/api/enquiries", ENQUIRY, keyed),
            ("GET", "/api/enquiries/<int(max=999999999):enquiry_id>"): (f"/api/enquiries/{self.enquiry}", None, {}),
            ("PATCH", "/api/enquiries/<int(max=999999999):enquiry_id>"): (
                f"/api/enquiries/{self.enquiry}",
                ENQUIRY,
                {"If-Match": _of(f"/api/enquiries/{self.enquiry}")},
            ),
            ("POST", "/api/enquiries/<int(max=999999999):enquiry_id>/quotations"): (
                f"/api/enquiries/{self.enquiry}/quotations",
                body,
                keyed,
            ),
            ("GET", "/api/quotations"): ("/api/quotations", None, {}),
            ("GET", "/api/quotations/NUMBER"): (draft, None, {}),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER"): (f"{draft}/revisions/A", None, {}),
            ("PUT", "/api/quotations/NUMBER/revisions/LETTER"): (
                f"{draft}/revisions/A",
                body,
                {"If-Match": _of(f"{draft}/revisions/A")},
            ),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/issue"): (
                f"{issued}/revisions/A/issue",
                None,
                {"If-Match": '"2"', **keyed},
            ),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/accept"): (
                f"{issued}/revisions/A/accept",
                {"said_by": "Greta Lindenhof"},
                {"If-Match": _of(f"{issued}/revisions/A"), **keyed},
            ),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/decline"): (
                f"{issued}/revisions/A/decline",
                {"reason": "price"},
                {"If-Match": _of(f"{issued}/revisions/A"), **keyed},
            ),
            ("POST", "/api/quotations/NUMBER/revisions"): (f"{issued}/revisions", None, keyed),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/paper"): (f"{issued}/revisions/A/paper", None, {}),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/difference-sheet"): (
                f"{issued}/revisions/A/difference-sheet",
                None,
                {},
            ),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/where-to-cut"): (
                f"{issued}/revisions/A/where-to-cut",
                None,
                {},
            ),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/part-tags"): (
                f"{issued}/revisions/A/part-tags",
                None,
                {},
            ),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/acceptance-form"): (
                f"{issued}/revisions/A/acceptance-form",
                None,
                {},
            ),
            ("GET", "/api/codes/<string(maxlength=80):code>"): (f"/api/codes/{self.code}", None, {}),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/approvals"): (
                f"{issued}/revisions/A/approvals",
                None,
                {},
            ),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/approvals"): (
                f"{issued}/revisions/A/approvals",
                {"line": 1, "rule": "A4"},
                {"If-Match": _of(f"{issued}/revisions/A"), **keyed},
            ),
            ("GET", "/api/approvals"): ("/api/approvals", None, {}),
            ("GET", "/api/chasing"): ("/api/chasing", None, {}),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/letters"): (f"{issued}/revisions/A/letters", None, {}),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/sendings"): (
                f"{issued}/revisions/A/sendings",
                {"kind": "offer", "way": "e-mail", "to": "anselm@example.org", "sent_on": "2026-11-25"},
                keyed,
            ),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/then-and-now"): (
                f"{issued}/revisions/A/then-and-now",
                None,
                {},
            ),
            ("PUT", "/api/quotations/NUMBER/revisions/LETTER/seen"): (
                f"{draft}/revisions/A/seen",
                {"book": 1, "tool_state": 0},
                {},
            ),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/retail"): (f"{issued}/revisions/A/retail", None, {}),
            ("GET", "/api/quotations/NUMBER/revisions/LETTER/retail-paper"): (
                f"{issued}/revisions/A/retail-paper",
                None,
                {},
            ),
            ("GET", "/api/retail-terms"): ("/api/retail-terms", None, {}),
            **self._dealers(keyed, draft),
            ("PUT", "/api/retail-terms"): ("/api/retail-terms", {"address": "Lindenhof 3", "margin": "5"}, {}),
            ("GET", f"/api/approvals/{APPROVAL}"): (f"/api/approvals/{self.approval}", None, {}),
            ("POST", f"/api/approvals/{APPROVAL}/answer"): (
                f"/api/approvals/{self.approval}/answer",
                {"answer": "granted", "reason": "Looked at."},
                keyed,
            ),
            ("POST", f"/api/approvals/{APPROVAL}/withdraw"): (
                f"/api/approvals/{self.approval}/withdraw",
                {"reason": "No longer wanted."},
                keyed,
            ),
        }
        plain = rule.replace("<string(maxlength=40):number>", "NUMBER").replace(
            "<string(maxlength=4):letter>", "LETTER"
        )
        path, sent, headers = requests[(method, plain)]
        seen = {name: self._seen(value) for name, value in headers.items()}
        return reader.send(method, path, sent, **seen).status_code

    def _seen(self, header: str) -> str:
        """What stands in a header; a version is only asked for where it is sent."""
        return self.owner.get(header.removeprefix(OF)).headers["ETag"] if header.startswith(OF) else header

    def _book_drafts(self, keyed: dict[str, str]) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is asked of a rule book's draft, each on the version that nobody has changed yet."""
        at, path = "/api/book-drafts/<int(max=999999999):draft>", f"/api/book-drafts/{self.book_draft}"
        piece, seen = f"{at}/pieces/<int(max=999999999):piece>", {"If-Match": '"1"'}
        empty = {"kind": "book", "name": "skerry", "fields": [], "rows": []}
        raising = {"prices": [], "lists": [], "percent": "1"}
        unseen = {"If-Match": '"999"'}
        return {
            ("GET", "/api/book-forms"): ("/api/book-forms", None, {}),
            ("GET", "/api/book-drafts"): ("/api/book-drafts", None, {}),
            ("POST", "/api/book-drafts"): ("/api/book-drafts", {}, keyed),
            ("GET", at): (path, None, {}),
            ("DELETE", at): (path, None, unseen),
            ("GET", f"{at}/steps"): (f"{path}/steps", None, {}),
            ("POST", f"{at}/steps"): (f"{path}/steps", {"version": 1}, unseen),
            ("GET", f"{at}/text"): (f"{path}/text", None, {}),
            ("PUT", f"{at}/text"): (f"{path}/text", {"text": "book x"}, unseen),
            ("GET", f"{at}/changes"): (f"{path}/changes", None, {}),
            ("POST", f"{at}/pieces"): (f"{path}/pieces", {**empty, "after": 0}, unseen),
            ("GET", piece): (f"{path}/pieces/0", None, {}),
            ("PUT", piece): (f"{path}/pieces/0", empty, unseen),
            ("DELETE", piece): (f"{path}/pieces/0", None, unseen),
            ("PUT", f"{piece}/text"): (f"{path}/pieces/0/text", {"text": "book x"}, unseen),
            ("PUT", f"{piece}/place"): (f"{path}/pieces/0/place", {"to": 1}, unseen),
            ("GET", f"{at}/words"): (f"{path}/words", None, {}),
            ("PUT", f"{at}/words"): (f"{path}/words", {"piece": 0, "field": "title", "texts": {}}, unseen),
            ("GET", f"{at}/prices"): (f"{path}/prices", None, {}),
            ("GET", f"{at}/prices.csv"): (f"{path}/prices.csv", None, {}),
            ("PUT", f"{at}/prices"): (f"{path}/prices", {"csv": "price,GBP"}, unseen),
            ("POST", f"{at}/raise"): (f"{path}/raise", raising, unseen),
            ("POST", f"{at}/conditions"): (f"{path}/conditions", {"text": "always"}, {}),
            ("GET", f"{at}/rehearsal"): (f"{path}/rehearsal", None, {}),
            ("POST", f"{at}/rehearsal"): (f"{path}/rehearsal", None, {}),
            ("GET", f"{at}/proof"): (f"{path}/proof", None, {}),
            ("GET", f"{at}/against"): (f"{path}/against", None, {}),
            ("POST", f"{at}/publish"): (f"{path}/publish", {"note": "No."}, seen),
        }

    def _photographs(self, keyed: dict[str, str]) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is asked of photographs: one is looked at, one taken out."""
        at = "/api/enquiries/<int(max=999999999):enquiry_id>/photographs"
        path, one = f"/api/enquiries/{self.enquiry}/photographs", f"{at}/<int(max=999999999):photograph>"
        return {
            ("GET", at): (path, None, {}),
            ("POST", at): (f"{path}?shows=plate", PICTURE, keyed),
            ("GET", f"{one}/file"): (f"{path}/{self.photographs[0]}/file", None, {}),
            ("DELETE", one): (f"{path}/{self.photographs[1]}", None, {}),
        }

    def _customers(self) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is asked of customers: one is looked at, one merged with another, one erased."""
        one, other, third = self.customers
        at, path = "/api/customers/<int(max=999999999):customer_id>", f"/api/customers/{one}"
        merge = {"other": other, "version": 1}
        return {
            ("GET", "/api/customers"): ("/api/customers", None, {}),
            ("POST", "/api/customers/alike"): ("/api/customers/alike", {"name": "Vera Ambach"}, {}),
            ("GET", at): (path, None, {}),
            ("POST", f"{at}/merge"): (f"{path}/merge", merge, {"If-Match": '"1"'}),
            ("POST", f"{at}/apart"): (f"{path}/apart", {"other": third}, {}),
            ("POST", f"{at}/everything"): (f"{path}/everything", None, {}),
            ("GET", f"{at}/erasure"): (f"{path}/erasure", None, {}),
            ("POST", f"{at}/erasure"): (f"/api/customers/{third}/erasure", self.erasure, {}),
            ("GET", f"{at}/bank-details"): (f"{path}/bank-details", None, {}),
            ("POST", f"{at}/bank-details"): (f"{path}/bank-details", BANK, fresh_key()),
            ("GET", "/api/bank-details"): ("/api/bank-details", None, {}),
            ("POST", "/api/bank-details"): ("/api/bank-details", BANK, fresh_key()),
            ("GET", "/api/bank-details/waiting"): ("/api/bank-details/waiting", None, {}),
            ("POST", "/api/bank-details/<int(max=999999999):proposal>/answer"): (
                f"/api/bank-details/{self.bank}/answer",
                {"agreed": False, "why": "Nobody knows of it."},
                fresh_key(),
            ),
            ("GET", "/api/retention"): ("/api/retention", None, {}),
            ("PUT", "/api/retention"): ("/api/retention", {"months": 24}, {}),
            ("POST", "/api/retention/erasures"): ("/api/retention/erasures", {"customers": []}, {}),
        }

    def _dealers(self, keyed: dict[str, str], draft: str) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What a dealer's own desk asks for."""
        return {
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/copies"): (f"{draft}/revisions/A/copies", {}, keyed),
            ("POST", "/api/quotations/NUMBER/revisions/LETTER/requests"): (
                f"{self.asked_of}/revisions/A/requests",
                {},
                keyed,
            ),
            ("GET", "/api/quotations/NUMBER/requests"): (f"{draft}/requests", None, {}),
            ("GET", "/api/requests"): ("/api/requests", None, {}),
            ("POST", "/api/requests/<int(max=999999999):request>/end"): (
                f"/api/requests/{self.request}/end",
                {"why": "No longer wanted."},
                keyed,
            ),
            ("GET", "/api/open-orders"): ("/api/open-orders", None, {}),
            ("GET", "/api/tokens"): ("/api/tokens", None, {}),
            **self._people(),
            ("POST", "/api/tokens"): ("/api/tokens", {"label": "Our shop", "scopes": ["check"]}, keyed),
            ("DELETE", "/api/tokens/<int(max=999999999):token>"): (f"/api/tokens/{self.token}", None, {}),
        }

    def _people(self) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is asked of people: nobody is disabled who tries anything here."""
        at, nell = "/api/people/<string(maxlength=40):name>", "/api/people/nell"
        rosa = {"name": "rosa", "display_name": "Rosa Teale", "role": "clerk"}
        terms = {"price_list": "EUR", "discounts": {"A": "12"}, "why": "As agreed."}
        return {
            ("GET", "/api/people"): ("/api/people", None, {}),
            ("POST", "/api/people"): ("/api/people", rosa, fresh_key()),
            ("GET", at): (nell, None, {}),
            ("POST", f"{at}/password"): (f"{nell}/password", None, fresh_key()),
            ("PUT", f"{at}/disabled"): (f"{nell}/disabled", None, {}),
            ("DELETE", f"{at}/disabled"): (f"{nell}/disabled", None, {}),
            ("PUT", "/api/password"): ("/api/password", {"current": "none", "new": "four unlike words"}, {}),
            ("GET", "/api/watching"): ("/api/watching", None, {}),
            ("GET", "/api/watching.csv"): ("/api/watching.csv?of=refusals", None, {}),
            ("PUT", "/api/watching/tools/<string(maxlength=80):tool>"): (
                "/api/watching/tools/coupe-roof",
                {"cost": 1, "margin": 1, "currency": "GBP"},
                {},
            ),
            ("GET", "/api/trade-terms"): ("/api/trade-terms", None, {}),
            ("PUT", "/api/trade-terms/<string(maxlength=40):dealer>"): (
                "/api/trade-terms/lindenhof",
                terms,
                {"If-Match": '"1"'},
            ),
        }

    def _orders(self, keyed: dict[str, str]) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is asked of orders and their money."""
        order, paid = f"/api/orders/{self.work.order}", f"/api/orders/{self.work.order}/payments/{self.work.payment}"
        at, payment = "/api/orders/NUMBER", "/api/orders/NUMBER/payments/<int(max=999999999):payment>"
        day = "2026-11-20"
        agreed = {"amount": 1, "rate": "1.1", "rate_day": day, "agreed_by": "Greta"}
        money = {"amount": 1, "currency": "EUR", "day": day, "means": "cash"}
        credit = {"document": self.work.document, "line": 1, "net": 1, "why": "A cent."}
        sheet = f"{order}/refund-worksheets/{self.work.worksheet}/credit-notes"
        document = f"/api/documents/{self.work.document}"
        return {
            ("GET", "/api/orders"): ("/api/orders", None, {}),
            ("GET", at): (order, None, {}),
            ("GET", "/api/quotations/NUMBER/order"): (f"/api/quotations/{self.work.accepted}/order", None, {}),
            ("GET", "/api/sheet-codes/<string(maxlength=80):code>"): ("/api/sheet-codes/none-of-ours", None, {}),
            ("GET", "/api/sheet-codes/<string(maxlength=80):code>/sheet"): (
                f"/api/sheet-codes/{SHEET_CODE}/sheet",
                None,
                {},
            ),
            ("GET", "/api/quotations/NUMBER/build-sheets"): (
                f"/api/quotations/{self.work.accepted}/build-sheets",
                None,
                {},
            ),
            ("GET", f"{at}/build-sheets/<int(max=9999):line>/<int(max=9999):piece>"): (
                f"{order}/build-sheets/1/1",
                None,
                {},
            ),
            ("GET", f"{at}/promises"): (f"{order}/promises", None, {}),
            ("POST", f"{at}/gates"): (f"{order}/gates", {"gate": "specification", "day": "2026-12-20"}, keyed),
            ("GET", "/api/calendar"): ("/api/calendar?first=2026-11-23&weeks=2", None, {}),
            ("GET", "/api/calendar/paper"): ("/api/calendar/paper?first=2026-11-23&weeks=2", None, {}),
            ("GET", "/api/outlook"): ("/api/outlook", None, {}),
            ("POST", "/api/outlook"): ("/api/outlook", {"years": 1}, {}),
            ("GET", "/api/better-weeks"): ("/api/better-weeks?weeks=1", None, {}),
            ("POST", "/api/better-weeks"): ("/api/better-weeks", {"weeks": 1, "token": "none"}, keyed),
            ("POST", f"{at}/confirmation"): (f"{order}/confirmation", {}, keyed),
            ("GET", f"{at}/confirmations/LETTER/paper"): (
                f"{order}/confirmations/A/paper",
                None,
                {},
            ),
            **self._shells(keyed),
            **self._parts(keyed),
            ("GET", f"{at}/slots/what-falls"): (f"{order}/slots/what-falls", None, {}),
            ("POST", f"{at}/slots/what-moves"): (f"{order}/slots/what-moves", {"shell": 1, "day": None}, {}),
            ("POST", f"{at}/slots"): (f"{order}/slots", {"shell": 1, "day": None, "token": "none"}, keyed),
            ("POST", f"{at}/tax-case"): (f"{order}/tax-case", {"case": "export", "why": "Sent."}, keyed),
            ("POST", f"{at}/payments"): (f"{order}/payments", money, keyed),
            ("POST", f"{payment}/agreement"): (f"{paid}/agreement", agreed, keyed),
            ("POST", f"{payment}/mistake"): (f"{paid}/mistake", {"why": "Another order's."}, keyed),
            ("POST", f"{at}/deposit-invoices"): (f"{order}/deposit-invoices", {"payment": self.work.payment}, keyed),
            ("POST", f"{at}/invoices"): (f"{order}/invoices", None, keyed),
            ("POST", f"{at}/credit-notes"): (f"{order}/credit-notes", credit, keyed),
            ("POST", f"{at}/refund-sum"): (f"{order}/refund-sum", {"kept": 0}, {}),
            ("POST", f"{at}/refund-worksheets"): (f"{order}/refund-worksheets", {"kept": 0, "why": "Again."}, keyed),
            ("POST", f"{at}/refund-worksheets/<string(maxlength=40):worksheet>/credit-notes"): (sheet, None, keyed),
            ("GET", "/api/documents/NUMBER/paper"): (f"{document}/paper", None, {}),
            ("GET", "/api/documents/NUMBER/ubl"): (f"{document}/ubl", None, {}),
            ("GET", "/api/bookkeeping.csv"): ("/api/bookkeeping.csv?since=2026-11-01&until=2026-11-30", None, {}),
            ("GET", "/api/tolerances"): ("/api/tolerances", None, {}),
            ("PUT", "/api/tolerances/<string(length=3):currency>"): ("/api/tolerances/EUR", {"amount": 0}, {}),
        }

    def _parts(self, keyed: dict[str, str]) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is done with a customer's part that came."""
        line, rule = "<int(max=9999):line>.<int(max=9999):piece>", "<string(maxlength=40):rule>"
        at = f"/api/parts/<string(maxlength=40):quotation>/{line}/{rule}"
        day, picture = "2026-11-20", f"photographs/{self.part_photograph}/file"
        failed = {"passed": False, "findings": [{}, {}, {}], "why": "Bent.", "by": "oona", "code": "2468"}
        return {
            ("GET", "/api/parts"): ("/api/parts", None, {}),
            ("GET", "/api/orders/NUMBER/parts"): (f"/api/orders/{self.work.order}/parts", None, {}),
            ("GET", at): (self.part, None, {}),
            ("POST", f"{at}/arrivals"): (f"{self.part}/arrivals", {"day": day}, keyed),
            ("POST", f"{at}/photographs"): (f"{self.part}/photographs", PICTURE, keyed),
            ("GET", f"{at}/photographs/<int(max=999999999):photograph>/file"): (f"{self.part}/{picture}", None, {}),
            ("POST", f"{at}/verdicts"): (f"{self.part}/verdicts", failed, keyed),
            ("POST", f"{at}/acts"): (f"{self.part}/acts", {"act": "kept", "day": day}, keyed),
            ("GET", f"{at}/ways-on"): (f"{self.part}/ways-on", None, {}),
            ("POST", f"{at}/choices"): (f"{self.part}/choices", {"choice": "cancel"}, keyed),
            ("GET", f"{at}/receipt"): (f"{self.part}/receipt?size=letter", None, {}),
        }

    def _came(self, desk: Desk) -> int:
        """The photograph of a part that came."""
        lead = desk.signed_in("tomasz")
        lead.post(f"{self.part}/arrivals", {"day": "2026-11-20"}, **fresh_key())
        told = lead.post(f"{self.part}/photographs", PICTURE, **fresh_key()).get_json()
        return int(told["arrivals"][-1]["photographs"][0]["id"])

    def _shells(self, keyed: dict[str, str]) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """What is done to a shell that has not been released."""
        at, shell, why = "/api/shells/<int(max=999999999):shell>", f"/api/shells/{self.work.shell}", {"why": "A crack."}
        signed = {"stage": "framing", "by": "idris", "code": "2468"}
        said = ("hold", "go-on", "rejection", "cancellation", "sheet-revisions")
        return {
            ("GET", "/api/floor"): ("/api/floor", None, {}),
            ("GET", at): (shell, None, {}),
            ("POST", f"{at}/release"): (f"{shell}/release", None, keyed),
            ("POST", f"{at}/replacement"): (f"{shell}/replacement", None, keyed),
            ("POST", f"{at}/stages"): (f"{shell}/stages", signed, keyed),
            **{("POST", f"{at}/{deed}"): (f"{shell}/{deed}", why, keyed) for deed in said},
            **self._recorded(at, shell, keyed),
            **self._inspected(f"{at}/inspection", f"{shell}/inspection", keyed),
            **self._changes(at, shell, keyed),
            ("GET", f"{at}/kit"): (f"{shell}/kit", None, {}),
            ("POST", f"{at}/kit"): (f"{shell}/kit", {"line": "sills", "stands": "present"}, keyed),
            ("POST", f"{at}/kit/rest"): (f"{shell}/kit/rest", None, keyed),
            ("GET", f"{at}/cancellation"): (f"{shell}/cancellation", None, {}),
            ("GET", "/api/signers"): ("/api/signers", None, {}),
            ("PUT", "/api/signers/<string(maxlength=80):name>/code"): (
                "/api/signers/idris/code",
                {"code": "1357"},
                {},
            ),
        }

    def _recorded(self, at: str, shell: str, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """Welds, concessions and rework of a shell that has not been released."""
        by, film = {"by": "idris", "code": "2468"}, {"subject": "film", "why": "Too thick."}
        one, said = f"{at}/rework/<int(max=999999999):rework>", {"answer": "granted", "reason": "Seen."}
        rework = {"subject": "film", "what": "Sand it.", "stage": "framing"}
        asked = f"{at}/concessions/<int(max=999999999):concession>/answer"
        return {
            ("POST", f"{at}/welds"): (f"{shell}/welds", {"zones": ["z-floor"], **by}, keyed),
            ("GET", "/api/concessions"): ("/api/concessions", None, {}),
            ("POST", f"{at}/concessions"): (f"{shell}/concessions", film, keyed),
            ("POST", asked): (f"{shell}/concessions/{self.concession}/answer", said, keyed),
            ("POST", f"{at}/rework"): (f"{shell}/rework", rework, keyed),
            ("POST", f"{one}/mended"): (f"{shell}/rework/1/mended", by, keyed),
            ("POST", f"{one}/withdrawal"): (f"{shell}/rework/1/withdrawal", {"why": "Fine."}, keyed),
        }

    def _changes(
        self, at: str, shell: str, keyed: dict[str, str]
    ) -> dict[tuple[str, str], tuple[str, Any, dict[str, str]]]:
        """Of the shell that one change note waits of."""
        note, own, why = "/api/change-notes/NUMBER", f"/api/change-notes/{NOTE}", {"why": "She rang."}
        wish = {"choices": {"holes": "blanked"}}
        signed = {"who": "Greta Lindenhof", "day": "2026-11-20"}
        return {
            ("GET", "/api/change-notes"): ("/api/change-notes", None, {}),
            ("GET", f"{at}/change-notes"): (f"{shell}/change-notes", None, {}),
            ("POST", f"{at}/change-notes/weighed"): (f"{shell}/change-notes/weighed", wish, {}),
            ("POST", f"{at}/change-notes"): (f"{shell}/change-notes", wish | why, keyed),
            **{
                ("POST", f"{note}/{said}"): (f"{own}/{said}", why, keyed)
                for said in ("approval", "refusal", "withdrawal")
            },
            ("POST", f"{note}/signature"): (f"{own}/signature", signed, keyed),
            ("GET", f"{note}/paper"): (f"{own}/paper?language=en&size=a4", None, {}),
        }

    def _inspected(self, at: str, path: str, keyed: dict[str, str]) -> dict[tuple[str, str], Any]:
        """Inspection of a shell that has not been released, and gauges."""
        reading = {"key": "reading-1", "subject": "surface", "value": "yes", "at": "2026-11-25T08:00:00Z"}
        verdict = {"phase": "metal", "verdict": "pass", "by": "oona", "code": "1357"}
        gauge = {"mark": "F-01", "sort": "feeler", "calibrated": "2026-11-20", "due": "2027-11-19"}
        one = f"{at}/photographs/<int(max=999999999):photograph>"
        words = {"said_by": "Vera", "words": "I know."}
        return {
            ("GET", "/api/inspections"): ("/api/inspections", None, {}),
            ("GET", at): (path, None, {}),
            ("GET", f"{at}/record"): (f"{path}/record", None, {}),
            ("POST", f"{at}/readings"): (f"{path}/readings", {"readings": [reading]}, keyed),
            ("POST", f"{at}/verdicts"): (f"{path}/verdicts", verdict, keyed),
            ("POST", f"{at}/primings"): (f"{path}/primings", {"day": "2026-11-24"}, keyed),
            ("POST", f"{at}/acknowledgements"): (f"{path}/acknowledgements", words, keyed),
            ("POST", f"{at}/photographs"): (f"{path}/photographs?subject=surface", PICTURE, keyed),
            ("GET", one): (self.of_surface, None, {}),
            ("GET", "/api/gauges"): ("/api/gauges", None, {}),
            ("POST", "/api/gauges"): ("/api/gauges", gauge, keyed),
        }


#: What a view says to somebody it lets through; that a thing is frozen or drafted already is no question of who may.
LET_THROUGH = (200, 201, 202, 204, 409, 412)


def test_every_route_declares_what_it_does(desk: Desk) -> None:
    assert [(method, rule) for method, rule, does in declared(desk) if does is None] == []


def test_the_routes_declare_every_line_of_the_table_but_what_is_settled_inside(desk: Desk) -> None:
    done = {does for _, _, does in declared(desk) if isinstance(does, tuple)}
    inside = {(Action.DECLARE_LOST, Sort.TOOL), (Action.READ, Sort.PRICE), (Action.CONFIRM, Sort.SECOND_ORDER)}
    assert set(MAY) - done == inside


@pytest.mark.parametrize("name", WHO)
def test_every_route_lets_through_exactly_whom_the_table_names(busy_desk: Desk, worked: Work, name: str) -> None:
    desk, tries = busy_desk, Tries(busy_desk, worked)
    reader = desk.signed_in(name, prices=WHO[name] is Role.DEALER)
    for method, rule, does in declared(desk):
        if isinstance(does, tuple):
            status = tries.send(reader, method, rule)
            assert status in expected_of(name, does[0], does[1], rule), f"{name} {method} {rule}: {status}"


def test_nobody_gets_anywhere_without_a_sign_in(busy_desk: Desk, worked: Work) -> None:
    desk, tries, stranger = busy_desk, Tries(busy_desk, worked), busy_desk.stranger()
    for method, rule, does in declared(desk):
        if does != "anybody" and (method, rule) != ("DELETE", "/api/session"):
            assert tries.send(stranger, method, rule) == 401, f"{method} {rule}"


def expected_of(name: str, action: Action, sort: Sort, rule: str) -> tuple[int, ...]:
    far = reach(WHO[name], action, sort)
    if far is None:
        return (403,)
    names_one = "<" in rule and sort in (
        Sort.CUSTOMER,
        Sort.ENQUIRY,
        Sort.QUOTATION,
        Sort.APPROVAL,
        Sort.PHOTOGRAPH,
        Sort.ORDER,
        Sort.DOCUMENT,
        Sort.DESPATCH,
        Sort.RETAIL,
        Sort.REQUEST,
        Sort.API_TOKEN,
        Sort.PART,
    )
    if far is Far.OWN and sort is Sort.CODE and name != OWNER:
        return (404,)
    if far is Far.OWN and names_one and name != OWNER:
        return (404,)
    if far is Far.OWN and sort is Sort.RESERVATION and "number>" in rule and name != OWNER:
        return (404,)
    return LET_THROUGH


def test_anothers_answers_byte_for_byte_as_what_does_not_exist(busy_desk: Desk, worked: Work) -> None:
    tries, wade = worked, busy_desk.signed_in("wade", prices=True)
    for real, none in (
        (f"/api/quotations/{tries.issued}", "/api/quotations/Q-2026-99999"),
        (f"/api/quotations/{tries.issued}/revisions/A/paper", "/api/quotations/Q-2026-99999/revisions/A/paper"),
        (
            f"/api/quotations/{tries.issued}/revisions/A/difference-sheet",
            "/api/quotations/Q-2026-99999/revisions/A/difference-sheet",
        ),
        (
            f"/api/quotations/{tries.issued}/revisions/A/where-to-cut",
            "/api/quotations/Q-2026-99999/revisions/A/where-to-cut",
        ),
        (
            f"/api/quotations/{tries.issued}/revisions/A/part-tags",
            "/api/quotations/Q-2026-99999/revisions/A/part-tags",
        ),
        (f"/api/enquiries/{tries.enquiry}", "/api/enquiries/99999"),
        (f"/api/codes/{tries.code}", "/api/codes/nothing-here"),
    ):
        assert wade.get(real).data == wade.get(none).data
    assert wade.get("/api/quotations").get_json() == {"quotations": [], "next": None}
    assert wade.get("/api/enquiries").get_json()["enquiries"] == []


def test_the_workshop_reads_the_code_of_a_paper_that_may_still_be_built(busy_desk: Desk, worked: Work) -> None:
    lead = busy_desk.signed_in("tomasz")
    found = lead.get(f"/api/codes/{worked.code}")
    assert (found.status_code, found.get_json()) == (200, {"number": worked.issued, "letter": "A"})
    busy_desk.clock.pass_seconds(31 * 24 * 3600)  # it has lapsed: no longer to come
    assert busy_desk.signed_in("tomasz").get(f"/api/codes/{worked.code}").status_code == 404


def test_a_dealer_hears_of_himself_alone(desk: Desk) -> None:
    dealers = desk.signed_in("wade").get("/api/dealers").get_json()["dealers"]
    assert [dealer["id"] for dealer in dealers] == ["bayou-road"]
    assert len(desk.signed_in("imogen").get("/api/dealers").get_json()["dealers"]) == 4


def test_the_lead_says_down_but_only_the_manager_says_lost_or_takes_it_back(desk: Desk) -> None:
    lead, manager = desk.signed_in("tomasz"), desk.signed_in("piers")

    def say(who: Reader, state: str) -> int:
        etag = who.get("/api/tools").headers["ETag"]
        said = {"state": state, "note": "" if state == "ok" else "Snapped."}
        return who.put("/api/tools/coupe-roof", said, If_Match=etag).status_code

    assert (say(lead, "down"), say(lead, "lost")) == (200, 403)
    assert say(manager, "lost") == 200
    assert (say(lead, "ok"), say(manager, "ok")) == (403, 200)
