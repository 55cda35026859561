"""The demo's change notes: one is signed and built by, one waits for the customer, one for the manager."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from app import calendar
from app.domain.orders.change_note import Wish
from app.services.floor import overseeing
from app.services.orders import change_notes, changing
from app.services.orders.change_notes import Signature
from app.store.db import Store
from demo.building import IMOGEN
from rules.model import Allowed

#: What is wanted, how the book takes it at the stage of the shell, and how the customer said it.
SIGNED = ({"holes": "blanked"}, Allowed.FREE, "Rang: no reversing lamps on his car, so please close the holes.")
TO_SIGN = ({"packing": "wrapped"}, Allowed.FREE, "Will fetch it with a friend's trailer, and needs no dolly.")
TO_APPROVE = ({"belts": "front"}, Allowed.APPROVAL, "Wants the front anchorages reinforced after all; has the belts.")


def change(store: Store, now: datetime) -> None:
    """Each on the first shell that was in the workshop then and on which it could still be noted so."""
    at = datetime.combine(now.date() - timedelta(days=1), time(16, 30), now.tzinfo)
    ordered = (one for one in overseeing.floor(store, now) if one.order.quotation)
    shells = [one.shell.id for one in ordered if one.shell.deeds and one.shell.deeds[-1].at < at]
    drawn = [_draw(store, shells, wanted, at) for wanted in (SIGNED, TO_SIGN, TO_APPROVE)]
    if drawn[0] is not None:
        number, agreed = drawn[0]
        signature = Signature(_signs(store, number, now), now.date(), agreed)
        change_notes.sign(store, IMOGEN, number, signature, calendar.around, now - timedelta(hours=2))


def _draw(
    store: Store, shells: list[int], wanted: tuple[dict[str, str], Allowed, str], at: datetime
) -> tuple[str, str] | None:
    """The note and the token of what moves by it; its shell is taken from the list. None where no shell is left."""
    choices, taken, why = wanted
    for shell in shells:
        found = changing.weigh(store, IMOGEN, shell, Wish(choices), why, calendar.around, at)
        if found.content is not None and found.taken is taken and found.changes:
            shells.remove(shell)
            number = change_notes.draw(store, IMOGEN, shell, Wish(choices), why, calendar.around, at)
            return number, "" if found.move is None else found.move.token
    return None


def _signs(store: Store, number: str, now: datetime) -> str:
    """The customer himself."""
    shell = change_notes.own_note(store, IMOGEN, number, now).shell
    return changing.shell_at(store, IMOGEN, shell, now).whole.order.frozen.customer.name
