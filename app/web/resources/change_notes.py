"""Changes on a shell after its order was confirmed: weighed, noted, approved, signed."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.domain.orders.change_note import Said, Wish
from app.domain.quotations.quotation import DeliveryPlace
from app.services.orders import change_notes, changing, handing_change_notes, redating
from app.services.orders.change_notes import Signature
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.files import PDF, pdf
from app.web.guard import does, refuse_hidden_prices
from app.web.laid_out import lay_out_sheets
from app.web.resources.floor import SHELL
from app.web.schemas.change_notes import (
    ChangeIn,
    ChangeNoteIn,
    NoteSignatureIn,
    NoteWhyIn,
    ShellChangesOut,
    WaitingNotesOut,
    WeighedChangeOut,
)
from app.web.schemas.quotations import PaperIn
from app.web.views.noted import changeable_view, note_view, waiting_view, weighed_view

NOTE = "/change-notes/<string(maxlength=40):number>"

blp = resource("change-notes", "What changes on a shell after its order was confirmed, at what price, days and word.")


@blp.route("/change-notes", methods=["GET"])
@does(Action.READ, Sort.CHANGE_NOTE)
@blp.response(200, WaitingNotesOut)
def waiting() -> Any:
    """Every change note that waits for the manager or for the customer's signature."""
    return {"notes": [waiting_view(*one) for one in change_notes.waiting(here.store(), here.me(), here.now())]}


@blp.route(f"{SHELL}/change-notes", methods=["GET"])
@does(Action.READ, Sort.CHANGE_NOTE)
@blp.response(200, ShellChangesOut)
def changes_of(shell: int) -> Any:
    """The shell as it is built now, how each change would be taken, and its change notes."""
    return _shown(shell)


@blp.route(f"{SHELL}/change-notes/weighed", methods=["POST"])
@does(Action.CREATE, Sort.CHANGE_NOTE)
@blp.arguments(ChangeIn)
@blp.response(200, WeighedChangeOut)
def weigh(body: dict[str, Any], shell: int) -> Any:
    """What a change would be: how it is taken, what forbids it, what it costs and moves. Nothing is written."""
    return weighed_view(changing.weigh(here.store(), here.me(), shell, _wish(body), "", calendar.around, here.now()))


@blp.route(f"{SHELL}/change-notes", methods=["POST"])
@does(Action.CREATE, Sort.CHANGE_NOTE)
@creates
@blp.arguments(ChangeNoteIn)
@blp.response(201, ShellChangesOut)
def draw(body: dict[str, Any], shell: int) -> Any:
    """Draw up a change note. It changes nothing before the customer has signed."""
    asked = (_wish(body), body["why"], calendar.around, here.now())
    change_notes.draw(here.store(), here.me(), shell, *asked, once=once())
    return _shown(shell)


@blp.route(f"{NOTE}/approval", methods=["POST"])
@does(Action.ANSWER, Sort.CHANGE_NOTE)
@creates
@blp.arguments(NoteWhyIn)
@blp.response(201, ShellChangesOut)
def approve(body: dict[str, str], number: str) -> Any:
    """The manager's yes to what the book leaves to him, with the reason."""
    return _said(number, Said.APPROVED, body["why"])


@blp.route(f"{NOTE}/refusal", methods=["POST"])
@does(Action.ANSWER, Sort.CHANGE_NOTE)
@creates
@blp.arguments(NoteWhyIn)
@blp.response(201, ShellChangesOut)
def turn_down(body: dict[str, str], number: str) -> Any:
    """The manager's no, with the reason."""
    return _said(number, Said.TURNED_DOWN, body["why"])


@blp.route(f"{NOTE}/withdrawal", methods=["POST"])
@does(Action.CHANGE, Sort.CHANGE_NOTE)
@creates
@blp.arguments(NoteWhyIn)
@blp.response(201, ShellChangesOut)
def withdraw(body: dict[str, str], number: str) -> Any:
    """Give it up, with the reason: the customer has thought better of it."""
    return _said(number, Said.WITHDRAWN, body["why"])


@blp.route(f"{NOTE}/signature", methods=["POST"])
@does(Action.ACCEPT, Sort.CHANGE_NOTE)
@creates
@blp.arguments(NoteSignatureIn)
@blp.response(201, ShellChangesOut)
def sign(body: dict[str, Any], number: str) -> Any:
    """Record that the customer signed: shell, build sheet, sum and dates become what the note says."""
    signature = Signature(body["who"], body["day"], body["agreed"])
    change_notes.sign(here.store(), here.me(), number, signature, calendar.around, here.now(), once=once())
    shell = change_notes.own_note(here.store(), here.me(), number, here.now()).shell
    shown = _shown(shell)
    if shown["shell"]["sheet"] is not None:
        lay_out_sheets(shell)
    return shown


@blp.route(f"{NOTE}/paper", methods=["GET"])
@does(Action.READ, Sort.CHANGE_NOTE)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def paper(query: dict[str, str], number: str) -> Any:
    """The change note as PDF, for the customer to sign."""
    refuse_hidden_prices()
    kind = (query["language"], query["size"])
    content = handing_change_notes.paper(here.store(), here.me(), number, *kind, here.now())
    return pdf(content, number, *kind)


def _wish(body: dict[str, Any]) -> Wish:
    place = None if body["place"] is None else DeliveryPlace(**body["place"])
    return Wish(body["choices"], place, body["charge"])


def _said(number: str, said: Said, why: str) -> Any:
    change_notes.answer(here.store(), here.me(), number, said, why, here.now(), once=once())
    return _of(number)


def _of(number: str) -> Any:
    return _shown(change_notes.own_note(here.store(), here.me(), number, here.now()).shell)


def _shown(shell: int) -> Any:
    store, me, now = here.store(), here.me(), here.now()
    at = changing.shell_at(store, me, shell, now)
    notes = change_notes.looked_at(store, me, at, now, calendar.around)
    return {
        "shell": changeable_view(at, redating.come_into(at)),
        "notes": [note_view(one.note, at, one.anew, one.stored) for one in notes],
    }
