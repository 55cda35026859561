"""What may have to be built, for the workshop, without an amount; and what is about to lapse, for the manager."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.planning import foreseeing
from app.services.planning.foreseeing import LineToCome, WorkToCome
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.schemas.forthcoming import AboutToLapseOut, WorksToComeOut, WorkToComeOut
from app.web.schemas.paging import SearchIn
from app.web.views.foreseen import nets_of, promise_view
from app.web.views.paged import next_of, turn_after
from app.web.views.quoted import yes_view
from app.web.views.things import depends_view, slots

blp = resource(
    "work-to-come", "Quotations that are out, in date or accepted, as the workshop sees them: without money."
)


@blp.route("/work-to-come", methods=["GET"])
@does(Action.READ, Sort.WORK_TO_COME)
@blp.arguments(SearchIn, location="query")
@blp.response(200, WorksToComeOut)
def list_work_to_come(query: dict[str, Any]) -> Any:
    """Those that hold every word of `q`, the last issued first."""
    found = foreseeing.work_to_come(here.store(), here.now(), text=query["q"], after=turn_after(query))
    return {"work": [_work(one) for one in found.rows], "next": next_of(found, query)}


@blp.route("/work-to-come/<string(maxlength=40):number>", methods=["GET"])
@does(Action.READ, Sort.WORK_TO_COME)
@blp.response(200, WorkToComeOut)
def one_work_to_come(number: str) -> Any:
    """The revision of that quotation that may still be built."""
    return _work(foreseeing.one_work_to_come(here.store(), number, here.now()))


@blp.route("/about-to-lapse", methods=["GET"])
@does(Action.READ, Sort.WATCH)
@blp.response(200, AboutToLapseOut)
def about_to_lapse() -> Any:
    """What is out and lapses within days, unanswered: a call may still save it."""
    found = foreseeing.about_to_lapse(here.store(), here.now())
    return {"days": foreseeing.SOON, "revisions": [promise_view(one) for one in found], "nets": nets_of(found)}


def _work(work: WorkToCome) -> dict[str, Any]:
    donor = work.donor
    return {
        "number": work.number,
        "letter": work.letter,
        "state": "accepted" if work.accepted else "issued",
        "book": work.book,
        "customer": work.customer,
        "donor": slots(donor, "number_text", "series", "number", "established", "gearbox"),
        "wanted_by": work.wanted_by,
        "issued_at": work.issued_at,
        "valid_until": work.valid_until,
        "lines": [_line(line) for line in work.lines],
        "earlier_yes": yes_view(work.earlier_yes),
        "awaits": work.awaits,
    }


def _line(line: LineToCome) -> dict[str, Any]:
    return {
        "quantity": line.quantity,
        "settled": line.settled,
        "standing": {option: state.value for option, state in line.standing.items()},
        "verdicts": [verdict.value for verdict in line.verdicts],
        "depends": depends_view(line.depends),
        "ready": line.ready,
    }
