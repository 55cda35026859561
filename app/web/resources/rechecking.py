"""A revision held against today: what a publication, a tool or a price list has done to it since."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.quotations import rechecking
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.resources.quotations import REVISION
from app.web.schemas.rechecking import RecheckedOut, SeenIn
from app.web.views.rechecked import rechecked_view

blp = resource("then-and-now", "A quotation as it was and as it is. Looking alters nothing.")


@blp.route(f"{REVISION}/then-and-now", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.response(200, RecheckedOut)
def then_and_now(number: str, letter: str) -> Any:
    """An issued revision as it was issued, a draft as it was last looked at, each against what is in force."""
    return rechecked_view(rechecking.recheck(here.store(), here.me(), number, letter, here.now()), here.now())


@blp.route(f"{REVISION}/seen", methods=["PUT"])
@does(Action.CHANGE, Sort.QUOTATION)
@blp.arguments(SeenIn)
@blp.response(200, RecheckedOut)
def see(body: dict[str, int], number: str, letter: str) -> Any:
    """A draft's author has seen what moved up to these numbers."""
    rechecking.see(here.store(), here.me(), number, letter, body["book"], body["tool_state"], here.now())
    return rechecked_view(rechecking.recheck(here.store(), here.me(), number, letter, here.now()), here.now())
