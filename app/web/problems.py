"""Every error as an RFC 9457 problem that says how to mend it, in the reader's language. Never a traceback in a body.

One table maps the tree of refusals to HTTP statuses; a test holds that no leaf is missing.
"""

from __future__ import annotations

import json
import logging
import secrets
import traceback
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any

from babel import Locale
from babel.dates import format_date, get_timezone_location
from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed, RequestEntityTooLarge

from app.domain import errors
from app.domain.errors import BookRefused, CannotIssue, Fault, Refusal, StructureOpen, Sum
from app.services.books import publishing
from app.store.db import TakesNothing
from app.web import here
from app.web.naming import named
from app.web.telling.speech import money_text
from app.wording import knows, locale_of, say, told
from rules.model import Book
from rules.reading.mistakes import Sentence

log = logging.getLogger("bodywright")

MEDIA_TYPE = "application/problem+json"

#: The status of each branch; a leaf has its own or its nearest branch's.
STATUS: Mapping[type[Refusal], int] = {
    errors.NotSignedIn: 401,
    errors.SignInFailed: 401,
    errors.SlowDown: 429,
    errors.TokenRefused: 401,
    errors.OutOfScope: 403,
    errors.ForgerySuspected: 403,
    errors.OwnPasswordFirst: 403,
    errors.MayNot: 403,
    errors.NotFound: 404,
    errors.Conflict: 409,
    errors.ChangedByAnother: 412,
    errors.VersionMissing: 428,
    errors.KeyMissing: 400,
    errors.TooLarge: 413,
    errors.Unacceptable: 422,
}

#: What the HTTP library says no to by itself.
BY_STATUS = {
    404: "not-found",
    405: "method-not-allowed",
    406: "not-acceptable",
    413: "too-large",
    415: "not-json",
    500: "internal",
}

#: Facts that a page may want as data beside the sentence.
SHOWN_FACTS = (
    *("line", "causes", "open_questions", "unpriced", "list", "seconds", "number", "letter"),
    *("fitting", "valid_until", "accepted"),
)


#: What RFC 6750, section 3.1, calls them.
_OF_RFC_6750: Mapping[type[Refusal], str] = {
    errors.TokenRefused: "invalid_token",
    errors.OutOfScope: "insufficient_scope",
}

#: Refusals whose sentences name options, lines and rules in the book's own words.
_NAMING = (CannotIssue, StructureOpen, errors.StockMisfit)


class Unreadable(Exception):
    """A body that is no JSON of use (`broken-json`) or not marked as JSON (`not-json`)."""

    def __init__(self, slug: str, status: int, **slots: Any) -> None:
        super().__init__(slug)
        self.slug, self.status, self.slots = slug, status, slots


def status_of(refusal: type[Refusal]) -> int:
    """The HTTP status of a refusal: its own in the table, or its nearest ancestor's."""
    return next(STATUS[kind] for kind in refusal.__mro__ if kind in STATUS)


def register(app: Flask) -> None:
    """Let every error of the app end here."""
    app.register_error_handler(Refusal, answer_refusal)
    app.register_error_handler(Unreadable, lambda error: problem(error.slug, error.status, error.slots))
    app.register_error_handler(HTTPException, answer_http)
    app.register_error_handler(TakesNothing, answer_disk)
    app.register_error_handler(Exception, answer_fault)


def answer_refusal(refusal: Refusal) -> Response:
    """A refusal of a service or of the gate."""
    facts = {key: _plain(value) for key, value in refusal.facts.items()}
    shown = {key: facts[key] for key in SHOWN_FACTS if key in facts}
    slots = named(refusal.facts, _book(), here.words) if isinstance(refusal, _NAMING) else refusal.facts
    slots, kind = spoken(slots, here.language()), status_of(type(refusal))
    response = problem(_slug(refusal), kind, slots, _errors(refusal), shown, why=_why(refusal))
    if "seconds" in facts:
        response.headers["Retry-After"] = str(facts["seconds"])
    if isinstance(refusal, errors.TokenRefused | errors.OutOfScope):
        response.headers["WWW-Authenticate"] = f'Bearer error="{_OF_RFC_6750[type(refusal)]}"'
    return response


def answer_http(error: HTTPException) -> Response:
    """What the HTTP library refuses; a redirect passes as it is."""
    if error.code is None or error.code < 400:
        return error.get_response()  # type: ignore[return-value]
    slots: dict[str, Any] = {"method": request.method, "limit": here.parts().config.largest_body}
    allowed = sorted(error.valid_methods or ()) if isinstance(error, MethodNotAllowed) else []
    response = problem(BY_STATUS.get(error.code, "bad-request"), error.code, {**slots, "allowed": allowed})
    if allowed:
        response.headers["Allow"] = ", ".join(allowed)
    if isinstance(error, RequestEntityTooLarge):
        response.headers["Connection"] = "close"
    return response


def answer_disk(error: TakesNothing) -> Response:
    """The disk is at fault, not the request: the log says what it said, the reader to wait."""
    log.error("nothing can be kept: %s", error)
    return problem("takes-nothing", 503)


def answer_fault(error: Exception) -> Response:
    """A fault of ours: the log gets where it happened (no message: it may quote a person), the reader a number."""
    incident = secrets.token_hex(4)
    where = "".join(traceback.format_tb(error.__traceback__)[-8:])
    log.error("incident %s: %s at %s\n%s", incident, type(error).__name__, request.endpoint, where)
    return problem("internal", 500, {"incident": incident})


def problem(
    slug: str,
    status: int,
    slots: Mapping[str, Any] | None = None,
    faults: Mapping[str, list[str]] | None = None,
    extra: Mapping[str, Any] | None = None,
    *,
    why: str = "",
) -> Response:
    """The problem `slug` as a response; `type` is an address relative to the desk, and can be read there.

    `why` picks closer sentences of the same problem, where there are any.
    """
    language = here.language()
    content: dict[str, Any] = {
        "type": f"/problems/{slug}",
        "title": say(_key(slug, why, "title"), language),
        "status": status,
        "detail": say(_key(slug, why, "detail"), language, **(slots or {})),
        "repair": say(_key(slug, why, "repair"), language, **(slots or {})),
    }
    content |= {"errors": faults} if faults else {}
    content |= extra or {}
    response = Response(json.dumps(content, ensure_ascii=False), status, content_type=MEDIA_TYPE)
    response.headers["Content-Language"] = language
    return response


def sentence_of(fault: Fault, language: str) -> str:
    """What is wrong with one field, as a sentence."""
    key = f"fault.{fault.code}"
    return say(key if knows(key) else "fault.invalid", language, **{"name": "", **spoken(fault.facts, language)})


def spoken(slots: Mapping[str, Any], language: str) -> dict[str, Any]:
    """The slots with days and sums written out and countries named, as that language does."""
    locale = Locale.parse(locale_of(language))
    return {name: _spoken(name, value, locale) for name, value in slots.items()}


def told_facts(facts: Mapping[str, str], language: str) -> dict[str, Any]:
    """The facts of an entry of a history, which keeps its day as text."""
    return spoken({name: date.fromisoformat(fact) if name == "day" else fact for name, fact in facts.items()}, language)


def _spoken(name: str, value: Any, locale: Locale) -> Any:
    if isinstance(value, date) and not isinstance(value, datetime):
        return format_date(value, "long", locale=locale)
    if isinstance(value, Sum):
        return money_text(value.minor, value.currency, locale)
    if isinstance(value, Sentence):
        return told(value, locale.language)
    if isinstance(value, Mapping):
        return value.get(locale.language) or next(iter(value.values()), "")
    if name == "zone":
        return get_timezone_location(value, locale=locale, return_city=True)
    return locale.territories.get(value, value) if name == "country" else value


def _key(slug: str, why: str, part: str) -> str:
    closer = f"problem.{slug}.{why}.{part}"
    return closer if why and knows(closer) else f"problem.{slug}.{part}"


def _why(refusal: Refusal) -> str:
    """Where nothing at all goes to a place there is nothing to offer instead."""
    why = str(refusal.facts.get("why", ""))
    return "nothing-goes-there" if why == "not-to-that-country" and not refusal.facts.get("fitting") else why


def _book() -> Book | None:
    try:
        return publishing.current_book(here.store(), here.now())
    except Refusal:
        return None


def _slug(refusal: Refusal) -> str:
    """A refusal may go by the name of its why, where that is a problem of its own."""
    why = refusal.facts.get("why")
    return str(why) if why and knows(f"problem.{why}.title") else refusal.slug


def _errors(refusal: Refusal) -> dict[str, list[str]]:
    if isinstance(refusal, BookRefused):
        said = ((m, *(told(part, here.language()) for part in (m.what, m.instead))) for m in refusal.mistakes)
        return _gathered((f"{m.file}:{m.line}", f"{what} {instead}") for m, what, instead in said)
    return _gathered((fault.path, sentence_of(fault, here.language())) for fault in refusal.faults)


def _gathered(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    together: dict[str, list[str]] = {}
    for path, sentence in pairs:
        together.setdefault(path, []).append(sentence)
    return together


def _plain(value: Any) -> Any:
    if isinstance(value, tuple | list | set | frozenset):
        return [_plain(part) for part in value]
    return value if isinstance(value, str | int | float | bool | None) else str(value)
