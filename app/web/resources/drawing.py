"""The shell drawing of a specification, for a page that draws it itself. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app.documents.drawings.data import drawing_data
from app.documents.drawings.drawing import Arrangement
from app.domain.asking.people import Action, Sort
from app.services.answering import drawing
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.schemas.drawing import DrawingsIn, DrawingsOut

blp = resource("drawing", "The shell drawing of a specification.")


@blp.route("/drawings", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(DrawingsIn)
@blp.response(200, DrawingsOut)
def draw(body: dict[str, Any]) -> Any:
    """Side and plan of what is settled, with the list that says the same; null where the book draws nothing."""
    language = body["language"] or here.language()
    arrangement = Arrangement(body["arrangement"])
    drawn = drawing.draw(here.store(), here.me(), asked_of(body), here.now(), language, arrangement)
    return {"drawing": None if drawn is None else drawing_data(drawn)}
