"""What is sent and kept when the donor car is stripped, and how the parts come out. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app.documents.drawings.data import drawing_data
from app.domain.asking.people import Action, Sort
from app.services.answering import stripping
from app.services.answering.stripping import Comes, SentPart
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.schemas.donor_parts import DonorPartsIn, DonorPartsOut
from app.web.views.things import slots

blp = resource("donor-parts", "What is sent and kept when the donor car is stripped.")


@blp.route("/donor-parts", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(DonorPartsIn)
@blp.response(200, DonorPartsOut)
def donor_parts(body: dict[str, Any]) -> Any:
    """The customer's parts with where to cut, and what is kept for the new shell, as far as it is settled."""
    language = body["language"] or here.language()
    inches = body["units"] == "imperial"
    found = stripping.stripped(here.store(), here.me(), asked_of(body), here.now(), language, inches=inches)
    return {
        "buildable": found.buildable,
        "sent": [_sent(one) for one in found.sent],
        "besides": found.besides,
        "refit": found.refit,
    }


def _sent(one: SentPart) -> dict[str, Any]:
    told = slots(one)
    return told | {"comes": None if one.comes is None else _comes(one.comes)}


def _comes(comes: Comes) -> dict[str, Any]:
    return {
        "margins": comes.margins,
        "remarks": [{"about": about, "text": text} for about, text in comes.remarks],
        "sketch": None if comes.sketch is None else drawing_data(comes.sketch),
    }
