"""Signing in, looking who is signed in, showing and hiding prices, signing out."""

from __future__ import annotations

from typing import Any

from flask import Response

from app.domain.asking.people import MAY, Action, Role, Sort, reach
from app.domain.errors import MayNot
from app.services.people import introducing, signing_in
from app.store.sessions import SignIn
from app.web import here
from app.web.blueprint import resource
from app.web.gate import cookie_name, token
from app.web.guard import for_anybody, for_anybody_signed_in
from app.web.schemas.session import SessionOut, SessionPatch, SignInIn

blp = resource("session", "Signing in and out, and what a person sets for his own sign-in.")


@blp.route("/session", methods=["POST"])
@for_anybody
@blp.arguments(SignInIn)
@blp.response(200, SessionOut)
def sign_in(body: dict[str, str]) -> Any:
    """Sign in: sets the cookie and hands out the forgery token."""
    config = here.parts().config
    address = here.address()
    opened = signing_in.sign_in(
        here.store(), here.parts().hasher, body["name"], body["password"], address, here.now(), config.session_hours
    )
    return shown(opened.sign_in, opened.token), {"Set-Cookie": _cookie(opened.token, config.session_hours * 3600)}


@blp.route("/session", methods=["GET"])
@for_anybody_signed_in
@blp.response(200, SessionOut)
def who_is_signed_in() -> Any:
    """Who is signed in."""
    return shown(_mine(), token() or "")


@blp.route("/session", methods=["PATCH"])
@for_anybody_signed_in
@blp.arguments(SessionPatch)
@blp.response(200, SessionOut)
def set_for_this_sign_in(body: dict[str, Any]) -> Any:
    """Show or hide prices, or change the language."""
    if body.get("prices_shown") and not _sees_prices(here.me().role):
        raise MayNot(action=Action.READ.value, role=here.me().role.value)
    own = token() or ""
    return shown(signing_in.change(here.store(), own, _mine(), body.get("prices_shown"), body.get("language")), own)


@blp.route("/session", methods=["DELETE"])
@for_anybody_signed_in
@blp.response(204)
def sign_out() -> Any:
    """Sign out."""
    signing_in.sign_out(here.store(), token() or "")
    return Response(status=204, headers={"Set-Cookie": _cookie("", 0)})


def _mine() -> SignIn:
    here.me()
    found = here.sign_in()
    assert found is not None
    return found


def _sees_prices(role: Role) -> bool:
    return reach(role, Action.READ, Sort.PRICE) is not None


def shown(sign_in: SignIn, own: str) -> dict[str, Any]:
    """The sign-in as its own page sees it."""
    person = sign_in.person
    dealer = introducing.dealer(here.store(), person.dealer)
    allowed: dict[str, list[str]] = {}
    for (action, sort), roles in MAY.items():
        if person.role in roles:
            allowed.setdefault(action.value, []).append(sort.value)
    return {
        "person": {
            "name": person.name,
            "display_name": person.display_name,
            "role": person.role.value,
            "dealer": person.dealer,
            "dealer_name": dealer.name if dealer else None,
            "dealer_country": dealer.country if dealer else None,
            "dealer_price_list": dealer.price_list if dealer else None,
            "language": sign_in.language,
        },
        "forgery_token": signing_in.forgery_token(own),
        "prices_shown": sign_in.prices_shown and _sees_prices(person.role),
        "prices_may_be_shown": _sees_prices(person.role),
        "first_password": sign_in.first_password,
        "may": allowed,
        "now": here.now(),
        "firm": introducing.firm(here.store()),
    }


def _cookie(value: str, age: int) -> str:
    secure = "; Secure" if here.parts().config.secure_cookie else ""
    return f"{cookie_name()}={value}; Max-Age={age}; Path=/; HttpOnly; SameSite=Strict{secure}"
