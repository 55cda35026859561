"""What every request passes before a view sees it: its size, who asks, whether our own page asked, its body."""

from __future__ import annotations

import hmac
import re
from collections.abc import Callable, Iterable
from typing import Any
from urllib.parse import urlsplit

import msgspec
from flask import Flask, current_app, g, request

from app.domain.asking.token import Scope
from app.domain.errors import ForgerySuspected, NotSignedIn, OwnPasswordFirst, TooLarge
from app.services.people import letting_in, signing_in
from app.store.sessions import SignIn
from app.web import here
from app.web.problems import Unreadable
from app.wording import LANGUAGES

View = Callable[..., Any]

#: Where somebody may go who has yet to choose his own password.
_WITH_A_FIRST_PASSWORD = ("/api/session", "/api/password")

SAFE = ("GET", "HEAD", "OPTIONS")
FORGERY_HEADER = "X-Forgery-Token"
DEEPEST = 32
LARGEST_NUMBER = 2**53
#: Nobody types a NUL, which JSON can only write as an escape. (Half of a surrogate pair can't be read at all.)
_NUL = re.compile(rb"(?<!\\)(?:\\\\)*\\u0000")


def register(app: Flask) -> None:
    """Put the gate before every view."""
    for check in (check_size, find_sign_in, check_forgery, ask_for_own_password, read_body):
        app.before_request(check)


def cookie_name() -> str:
    """Over TLS the browser itself sees to it that no other host or plain connection sets the cookie."""
    return "__Host-desk" if here.parts().config.secure_cookie else "desk"


def token() -> str | None:
    """The sign-in's token as the browser sent it."""
    return request.cookies.get(cookie_name())


def check_size() -> None:
    """Raises TooLarge before anything of the body is looked at."""
    config = here.parts().config
    limit = config.largest_file if _wants_file() else config.largest_body
    request.max_content_length = limit
    if (request.content_length or 0) > limit:
        raise TooLarge(limit=limit)


def find_sign_in() -> None:
    """Who asks, if his cookie or his program's token is good; a view that needs somebody asks `here.me`.

    Whoever sends a token is looked at by that alone, whatever cookie comes with it. Raises TokenRefused, SlowDown.
    """
    if (secret := _bearer()) is not None:
        return _let_in(secret)
    sent = token()
    if sent and request.path.startswith(("/api/", "/problems/")):
        try:
            g.sign_in = signing_in.signed_in(here.store(), sent, here.now())
        except NotSignedIn:
            g.sign_in = None
    return None


def _bearer() -> str | None:
    """The secret of an `Authorization: Bearer …` (RFC 6750); None where none is sent."""
    sent = request.headers.get("Authorization", "")
    scheme, _, secret = sent.partition(" ")
    return secret.strip() if scheme.lower() == "bearer" and request.path.startswith("/api/") else None


def _let_in(secret: str) -> None:
    found = letting_in.let_in(here.store(), secret, here.now())
    language = request.accept_languages.best_match(LANGUAGES) or found.person.language
    g.sign_in = SignIn(found.person, Scope.PRICES in found.scopes, language)
    g.scopes = found.scopes


def check_forgery() -> None:
    """A change must come from our own page. Raises ForgerySuspected.

    The origin is looked at always, the token wherever somebody is signed in; signing in itself has no token yet. No
    page can make a browser send a program's token, so a request that carries one needs no other proof.
    """
    if request.method in SAFE or not request.path.startswith("/api/") or here.scopes() is not None:
        return
    if not _own_origin(request.headers.get("Origin")) or request.headers.get("Sec-Fetch-Site") in (
        "cross-site",
        "same-site",
    ):
        raise ForgerySuspected
    signing = request.path == "/api/session" and request.method == "POST"
    if here.sign_in() is not None and not signing and not _token_fits(request.headers.get(FORGERY_HEADER, "")):
        raise ForgerySuspected


def ask_for_own_password() -> None:
    """Whoever came in with a first password gets no further before he has his own. Raises OwnPasswordFirst."""
    found = here.sign_in()
    if found is not None and found.first_password and request.path not in _WITH_A_FIRST_PASSWORD:
        raise OwnPasswordFirst


def read_body() -> None:
    """The JSON into `here.body()`. Raises Unreadable; an unknown address or method is left to be said first."""
    if request.routing_exception or request.method in SAFE or not request.path.startswith("/api/") or _wants_file():
        return
    raw = request.get_data(cache=True)
    if not raw:
        return
    if not (request.mimetype == "application/json" or request.mimetype.endswith("+json")):
        raise Unreadable("not-json", 415)
    g.body = _read(raw)


def takes_file(view: View) -> View:
    """Declare that the view reads its body itself, as the file that it is."""
    view.takes_file = True  # type: ignore[attr-defined]
    return view


def _wants_file() -> bool:
    view = current_app.view_functions.get(request.endpoint or "")
    return request.method not in SAFE and getattr(view, "takes_file", False)


def _own_origin(origin: str | None) -> bool:
    """Browsers send it with every change; a program that sends none carries the token."""
    if origin is None:
        return True
    return urlsplit(origin).netloc in (request.host, urlsplit(here.parts().config.url).netloc)


def _token_fits(sent: str) -> bool:
    own = token()
    return own is not None and hmac.compare_digest(
        sent.encode("utf-8", "replace"), signing_in.forgery_token(own).encode()
    )


def _read(raw: bytes) -> Any:
    try:
        value = msgspec.json.decode(raw)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise Unreadable("broken-json", 400, depth=DEEPEST) from error
    if _NUL.search(raw) or not _of_use(value):
        raise Unreadable("broken-json", 400, depth=DEEPEST)
    return value


def _of_use(value: Any) -> bool:
    """Whether depth and numbers stay within what anybody can mean; looked at level by level, without recursion."""
    level = [value]
    for _ in range(DEEPEST):
        if any(type(part) in (int, float) and abs(part) > LARGEST_NUMBER for part in level):
            return False
        level = [inner for part in level if isinstance(part, dict | list) for inner in _inside(part)]
        if not level:
            return True
    return False


def _inside(part: dict[str, Any] | list[Any]) -> Iterable[Any]:
    return part.values() if isinstance(part, dict) else part
