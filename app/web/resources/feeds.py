"""Calendar feeds (RFC 5545): made, listed and revoked by people; read by whoever holds the address."""

from __future__ import annotations

from typing import Any

from flask import Response

from app import calendar
from app.domain.asking.feed import Feed
from app.domain.asking.people import Action, Sort
from app.services.planning import subscribing
from app.services.planning.feeding import calendar_feed
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does, for_anybody
from app.web.schemas.feeds import FeedIn, FeedMadeOut, FeedOut, FeedsOut
from app.web.views.things import slots

#: The address is the secret, so nobody else's cache may keep it, and no search engine name it.
_HEADERS = {
    "Content-Disposition": 'inline; filename="calendar.ics"',
    "Cache-Control": "private, no-cache",
    "X-Robots-Tag": "noindex",
}

blp = resource("feeds", "The calendar for people's own calendar programs: read-only, at a secret address, revocable.")


@blp.route("/calendar-feeds", methods=["GET"])
@does(Action.READ, Sort.CALENDAR_FEED)
@blp.response(200, FeedsOut)
def every_feed() -> Any:
    """The reader's own feeds; for the manager everybody's."""
    return {"feeds": [_view(one) for one in subscribing.feeds(here.store(), here.me())]}


@blp.route("/calendar-feeds", methods=["POST"])
@does(Action.CREATE, Sort.CALENDAR_FEED)
@creates
@blp.arguments(FeedIn)
@blp.response(201, FeedMadeOut)
def make_feed(body: dict[str, Any]) -> Any:
    """Make one, in the reader's language: its address is in this answer and in no other."""
    made = subscribing.make(here.store(), here.me(), body["label"], here.language(), here.now(), once=once())
    address = made.secret and f"{here.parts().config.url}/api/calendar-feeds/{made.secret}.ics"
    return {**_view(made.feed), "address": address}


@blp.route(f"/calendar-feeds/<{KEY}:feed>", methods=["DELETE"])
@does(Action.CHANGE, Sort.CALENDAR_FEED)
@blp.response(200, FeedOut)
def revoke_feed(feed: int) -> Any:
    """Revoke it: from this moment its address leads nowhere. It stays on the list."""
    found = subscribing.revoke(here.store(), here.me(), feed, here.now())
    return _view(found)


@blp.route("/calendar-feeds/<string(maxlength=80):secret>.ics", methods=["GET"])
@for_anybody
@blp.response(200, {"type": "string"}, content_type="text/calendar")
def read_feed(secret: str) -> Any:
    """The calendar as iCalendar; what is wrong or revoked is nothing."""
    person, feed = subscribing.reader_of(here.store(), secret, here.address(), here.now())
    url = here.parts().config.url
    content = calendar_feed(here.store(), person, feed.language, url, calendar.around, here.now())
    return Response(content, content_type="text/calendar; charset=utf-8", headers=_HEADERS)


def _view(feed: Feed) -> dict[str, Any]:
    plain = ("id", "label", "language", "live", "made_at", "used_at", "revoked_at")
    return {
        **slots(feed, *plain),
        "made_by_name": here.called(feed.person),
        "revoked_by_name": feed.revoked_by and here.called(feed.revoked_by),
    }
