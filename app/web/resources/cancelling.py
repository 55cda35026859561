"""Cancelling one shell of an order: what stands before it is decided, and the deed with its worksheet."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.money.refunding import Decided
from app.services.orders import cancelling
from app.services.orders.cancelling import Cancelling
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.floor import SHELL, shown
from app.web.schemas.cancelling import CancelIn, CancellingOut
from app.web.schemas.floor import FloorShellOut
from app.wording import say

blp = resource("cancelling", "One shell of an order cancelled, and what is kept of what was paid for it.")


@blp.route(f"{SHELL}/cancellation", methods=["GET"])
@does(Action.CANCEL, Sort.SHELL)
@blp.response(200, CancellingOut)
def before_cancelling(shell: int) -> Any:
    """What stands before it is decided: the stage, and what was billed in advance. What to keep is not proposed."""
    return _view(cancelling.look(here.store(), here.me(), shell, here.now()))


@blp.route(f"{SHELL}/cancellation", methods=["POST"])
@does(Action.CANCEL, Sort.SHELL)
@creates
@blp.arguments(CancelIn)
@blp.response(201, FloorShellOut)
def cancel(body: dict[str, Any], shell: int) -> Any:
    """Cancel this one shell, with the reason; with `kept`, its refund worksheet is written in the same stroke."""
    kept, told = body["kept"], {name: body[name] for name in ("hours", "resale")}
    decided = None if kept is None else Decided(kept, body["why"], **told)
    cancelling.cancel(here.store(), here.me(), shell, decided, body["why"], here.now(), once=once())
    return shown(shell)


def _view(found: Cancelling) -> dict[str, Any]:
    """What a worksheet begins with."""
    shell, order = found.shell, found.at.whole.order
    said = say("cancelling.from-stock" if shell.from_stock else "cancelling.made", here.language())
    return {
        "order": order.number,
        "shell": shell.place,
        "serial": shell.serial,
        "stage": shell.stage or None,
        "from_stock": shell.from_stock,
        "currency": order.frozen.currency,
        "received": found.received,
        "refundable": found.refundable,
        "says": said,
    }
