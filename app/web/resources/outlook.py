"""Whether promises hold: thousands of shells lived through, begun by the manager and looked at while it goes on."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.planning.outlook import Supposed
from app.services.planning import outlook
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.schemas.outlook import PromiseOutlookOut, SupposedIn
from app.web.views.outlook import outlook_view

blp = resource("outlook", "How many promises a workshop like this one keeps, by what is supposed to go wrong.")


@blp.route("/outlook", methods=["GET"])
@does(Action.READ, Sort.OUTLOOK)
@blp.response(200, PromiseOutlookOut)
def the_outlook() -> Any:
    """How far it has come, and the last that was found."""
    return outlook_view(here.store(), here.now(), here.language())


@blp.route("/outlook", methods=["POST"])
@does(Action.CREATE, Sort.OUTLOOK)
@blp.arguments(SupposedIn)
@blp.response(202, PromiseOutlookOut)
def begin_outlook(body: dict[str, Any]) -> Any:
    """Begin to live through the years, unless one is underway. Nothing is written, no promise moves."""
    outlook.begin(here.store(), here.me(), Supposed(**body), here.now())
    return outlook_view(here.store(), here.now(), here.language())
