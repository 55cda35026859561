"""What the request at hand may know: the desk's parts, who asks, what people are called. Nothing is decided."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import msgspec
from argon2 import PasswordHasher
from flask import Response, current_app, g, request

from app.config import Config
from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.voice import Voice
from app.domain.asking.people import Action, Person, Sort, reach
from app.domain.asking.token import Scope
from app.domain.errors import NotSignedIn
from app.services.floor.signing import Signature
from app.services.people import introducing
from app.store.db import Store
from app.store.sessions import SignIn
from app.wording import LANGUAGES
from rules.model import Book


@dataclass(frozen=True, slots=True)
class Parts:
    """What the factory put together once, for all requests."""

    config: Config
    store: Store
    hasher: PasswordHasher


def parts() -> Parts:
    """The parts of the running desk."""
    kept: Parts = current_app.extensions["desk"]
    return kept


def store() -> Store:
    """Where everything is kept."""
    return parts().store


def now() -> datetime:
    """This request's moment: the same however often it is asked."""
    if "now" not in g:
        g.now = parts().config.clock()
    moment: datetime = g.now
    return moment


def sign_in() -> SignIn | None:
    """The sign-in that the cookie names, if there is one."""
    found: SignIn | None = g.get("sign_in")
    return found


def scopes() -> tuple[Scope, ...] | None:
    """What the program that asks may do; None: a person asks at the desk."""
    found: tuple[Scope, ...] | None = g.get("scopes")
    return found


def me() -> Person:
    """Who asks. Raises NotSignedIn."""
    found = sign_in()
    if found is None:
        raise NotSignedIn
    return found.person


def called(name: str) -> str:
    """What somebody is called, by the name he signs in with."""
    if "display_names" not in g:
        g.display_names = introducing.display_names(store())
    names: Mapping[str, str] = g.display_names
    return names.get(name, name)


def dealer_called(dealer: str) -> str:
    """What a dealer is called, by his id; the id itself where the reader may not know of him."""
    if "dealer_names" not in g:
        g.dealer_names = {one.id: one.name for one in introducing.dealers_for(store(), me())}
    names: Mapping[str, str] = g.dealer_names
    return names.get(dealer, dealer)


def address() -> str:
    """Where the request comes from."""
    return request.remote_addr or ""


def signature(person: str, code: str) -> Signature:
    """Of whoever signs with his personal code, typed where the request comes from."""
    return Signature(person, code, address(), parts().hasher)


def language() -> str:
    """The reader's language: his sign-in's, else what his browser asks for."""
    found = sign_in()
    if found is not None:
        return found.language
    return request.accept_languages.best_match(LANGUAGES) or LANGUAGES[0]


def prices_visible() -> bool:
    """Whether this reader may see an amount now: settled once for each request.

    Asked by `fields.Amount`, `fields.Priced`, `answering` and the papers alone.
    """
    if "prices_visible" not in g:
        g.prices_visible = _sees_prices(sign_in())
    visible: bool = g.prices_visible
    return visible


def _sees_prices(found: SignIn | None) -> bool:
    return found is not None and found.prices_shown and reach(found.person.role, Action.READ, Sort.PRICE) is not None


def body() -> Any:
    """The JSON of the request, read once by the gate; None where there is none."""
    return g.get("body")


def written(value: Any) -> Response:
    """JSON that is ready to go out as it stands; structs and dataclasses by their fields, enums by their values."""
    return Response(msgspec.json.encode(value), mimetype="application/json")


def words(text: Mapping[str, str]) -> str:
    """A text of the book in the reader's language, else in the first it has."""
    return text.get(language()) or next(iter(text.values()), "")


def voice(book: Book) -> Voice:
    """Who says the book's things to the reader, with his figures; no money."""
    return Voice(book, language(), Figures(locale_for(language()), ""))
