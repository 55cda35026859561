"""What the demo's dealers do at their own desks: a token, an order for stock, a formal quotation that is asked for."""

from __future__ import annotations

from datetime import datetime, timedelta

from app.domain.asking.token import Scope
from app.domain.quotations.quotation import Reply, Standing
from app.services.people import letting_in
from app.services.quotations import copying, quoting, requesting, settling
from app.store import tokens
from app.store.db import Store
from demo.people import PERSON

NELL, THEMBA = PERSON["nell"], PERSON["themba"]


def deal(store: Store, now: datetime, url: str) -> None:
    """`url`: where the codes on the papers lead. The token's secret is told to nobody."""
    _let_a_program_in(store, now)
    _order_for_stock(store, now, url)
    _ask_formally(store, now)


def _let_a_program_in(store: Store, now: datetime) -> None:
    wanted = (Scope.CHECK, Scope.ORDERS)
    made = letting_in.make(store, NELL, "Stock list of the shop", wanted, None, now - timedelta(days=40))
    with store.writing() as db:  # nobody can come in yet: the people are added last
        tokens.used(db, made.token.id, now - timedelta(hours=3))


def _order_for_stock(store: Store, now: datetime, url: str) -> None:
    """Copy × 3 of what a customer of his ordered, issued and ordered the next day."""
    (seen, *_) = quoting.quotations(store, NELL, now, standing=Standing.ACCEPTED, text="Thackwell").rows
    copied, ordered = now - timedelta(days=3), now - timedelta(days=2)
    made = copying.copy(store, NELL, seen.number, seen.letter, copied, for_stock=True, quantity=3)
    issued = quoting.issue(store, NELL, made.number, "A", copied, expected=2, url=url, draw=False)
    reply = Reply(ordered, NELL.display_name, note="For stock.")
    settling.accept(store, NELL, made.number, "A", reply, ordered, expected=issued.version)


def _ask_formally(store: Store, now: datetime) -> None:
    (draft, *_) = quoting.quotations(store, THEMBA, now, standing=Standing.DRAFT, text="Rooibaard").rows
    note = "She wants it on the maker’s own paper for her bank, to the port at the Cape."
    requesting.ask(store, THEMBA, draft.number, draft.letter, note, now - timedelta(hours=20))
