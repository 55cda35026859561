"""The donor car as built, as it stands and as ordered, where they differ. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.answering import picturing
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.schemas.pictures import PicturesIn, PicturesOut

blp = resource("pictures", "A donor car in three pictures.")


@blp.route("/pictures", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(PicturesIn)
@blp.response(200, PicturesOut)
def picture(body: dict[str, Any]) -> Any:
    """Of the structural options those in which any two of the pictures differ, in the order of the book."""
    pictures = (body["built"], body["stands"])
    return {"rows": picturing.picture(here.store(), here.me(), asked_of(body), pictures, here.now())}
