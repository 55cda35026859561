"""What the manager watches of a period: refusals, lost tools, declined quotations, discounts; each as a table, too."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from app.documents.lists import watch_csv
from app.domain.asking.people import Action, Sort
from app.domain.quotations.quotation import Reason
from app.domain.quotations.refused import Counted
from app.domain.watched import BANDS, Aged, Amiss, band_of, by_subject
from app.services import watching
from app.services.books import publishing
from app.services.watching import Cause, LostTool, Watched
from app.web import here
from app.web.blueprint import resource
from app.web.files import carried_off
from app.web.guard import does
from app.web.schemas.watching import RemakingIn, WatchedIn, WatchedOut, WatchedTableIn
from app.web.views.ordered import shell_name
from app.web.views.subjects import subject_view
from app.web.views.things import slots

blp = resource("watching", "What was asked for and could not be built, what was declined and why, what was taken off.")


@blp.route("/watching", methods=["GET"])
@does(Action.READ, Sort.WATCH)
@blp.arguments(WatchedIn, location="query")
@blp.response(200, WatchedOut)
def what_is_watched(query: dict[str, Any]) -> Any:
    """All of it for these days, with the rows it is counted from."""
    return _view(watching.watched_between(here.store(), query["since"], query["until"], here.now()))


@blp.route("/watching.csv", methods=["GET"])
@does(Action.READ, Sort.WATCH)
@blp.arguments(WatchedTableIn, location="query")
@blp.response(200, {"type": "string"}, content_type="text/csv")
def as_a_table(query: dict[str, Any]) -> Any:
    """One of its tables, row by row."""
    found = watching.watched_between(here.store(), query["since"], query["until"], here.now())
    text = {
        "refusals": lambda: watch_csv.refusals_csv(found.refused),
        "declined": lambda: watch_csv.declined_csv(found.declined),
        "discounts": lambda: watch_csv.discounts_csv(found.discounted),
        "amiss": lambda: watch_csv.amiss_csv(found.amiss),
        "stock": lambda: watch_csv.stock_csv(found.stock),
    }[query["of"]]()
    return carried_off(text, "text/csv; charset=utf-8", f"{query['of']}-{found.since}-{found.until}.csv")


@blp.route("/watching/tools/<string(maxlength=80):tool>", methods=["PUT"])
@does(Action.CHANGE, Sort.WATCH)
@blp.arguments(RemakingIn)
@blp.response(200, WatchedOut)
def say_remaking(body: dict[str, Any], tool: str) -> Any:
    """What remaking it is taken to cost and to bring; answers with the last 13 weeks."""
    told = (body["cost"], body["margin"], body["currency"])
    watching.say_remaking(here.store(), here.me(), tool, *told, here.now())
    return _view(watching.watched_between(here.store(), None, None, here.now()))


def _view(found: Watched) -> dict[str, Any]:
    lists = publishing.current_book(here.store(), here.now()).lists
    return {
        "since": found.since,
        "until": found.until,
        "total": _counted(found.total),
        "causes": [_cause(one) for one in found.causes],
        "tools": [_tool(one) for one in found.tools],
        "currencies": list(dict.fromkeys(one.currency for one in lists)),
        "reasons": list(_reasons(found)),
        "given": list(_given(found)),
        "refused": [{**slots(one), "shells": one.quantity} for one in found.refused],
        "declined": [{**slots(one), "reason": one.reason.value} for one in found.declined],
        "discounted": [slots(one) for one in found.discounted],
        "amiss": list(_amiss(found)),
        "amiss_rows": [_amiss_row(one) for one in found.amiss],
        "ages": [{"until": end, "count": sum(band_of(one.days) == end for one in found.stock)} for end in BANDS],
        "stock": [_aged(one) for one in found.stock],
    }


def _amiss(found: Watched) -> Iterable[dict[str, Any]]:
    book = publishing.current_book(here.store(), here.now())
    for about, row in by_subject(found.amiss).items():
        yield {**subject_view(book, about), "count": row.rework + row.concessions, **slots(row)}


def _amiss_row(one: Amiss) -> dict[str, Any]:
    told = slots(one, "serial", "order", "at", "why", "standing", "minutes")
    return {**told, "amends": one.amends.value, "subject": str(one.subject)}


def _aged(one: Aged) -> dict[str, Any]:
    name = shell_name(publishing.book(here.store(), one.book), one.made)
    return {**slots(one, "number", "since", "days", "ready"), "name": name, "band": band_of(one.days)}


def _cause(one: Cause) -> dict[str, Any]:
    return {"id": one.id, "reason": one.reason, "tool": one.tool, **_counted(one.counted)}


def _counted(row: Counted) -> dict[str, Any]:
    nets = _nets(row.nets.items())
    return {"enquiries": row.enquiries, "shells": row.shells, "nets": nets, "unpriced": row.unpriced}


def _tool(one: LostTool) -> dict[str, Any]:
    said = one.remaking
    remaking = said and {**slots(said), "by_name": here.called(said.by), "pays_back_after": said.pays_back_after}
    tool = {"id": one.tool.id, "label": dict(one.tool.label), "rule": one.tool.speaks_as, "part": one.tool.stands_in}
    return {**tool, **_counted(one.refused), "instead": one.instead, "remaking": remaking}


def _reasons(found: Watched) -> Iterable[dict[str, Any]]:
    """Every reason that there is, said or not, in its order."""
    for reason in Reason:
        rows = [one for one in found.declined if one.reason is reason]
        yield {"reason": reason.value, "count": len(rows), "nets": _nets((one.currency, one.net) for one in rows)}


def _given(found: Watched) -> Iterable[dict[str, Any]]:
    for dealer, currency in sorted({(one.dealer or "", one.currency) for one in found.discounted}):
        rows = [one for one in found.discounted if (one.dealer or "", one.currency) == (dealer, currency)]
        sums = {"listed": sum(one.listed for one in rows), "off": sum(one.off for one in rows)}
        who = {"dealer": dealer or None, "dealer_name": here.dealer_called(dealer) if dealer else None}
        yield {**who, "currency": currency, "count": len(rows), **sums}


def _nets(rows: Iterable[tuple[str, int]]) -> list[dict[str, Any]]:
    sums: dict[str, int] = {}
    for currency, net in rows:
        sums[currency] = sums.get(currency, 0) + net
    return [{"currency": currency, "net": net} for currency, net in sorted(sums.items())]
