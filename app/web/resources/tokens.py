"""Tokens by which a dealer's own program reads and asks. Made and revoked by people alone, never by a token."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.asking.token import ApiToken, Scope
from app.services.people import letting_in
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.schemas.tokens import TokenIn, TokenMadeOut, TokenOut, TokensOut
from app.web.views.things import slots

blp = resource("tokens", "Tokens of dealers' own programs: scoped, shown once, revocable.")


@blp.route("/tokens", methods=["GET"])
@does(Action.READ, Sort.API_TOKEN)
@blp.response(200, TokensOut)
def every_token() -> Any:
    """The dealer's own tokens; for the manager every dealer's."""
    return {"tokens": [_view(one) for one in letting_in.tokens(here.store(), here.me())]}


@blp.route("/tokens", methods=["POST"])
@does(Action.CREATE, Sort.API_TOKEN)
@creates
@blp.arguments(TokenIn)
@blp.response(201, TokenMadeOut)
def make_token(body: dict[str, Any]) -> Any:
    """Make one: its secret is in this answer and in no other."""
    scopes = [Scope(scope) for scope in body["scopes"]]
    made = letting_in.make(here.store(), here.me(), body["label"], scopes, body["expires_on"], here.now(), once=once())
    return {**_view(made.token), "secret": made.secret}


@blp.route(f"/tokens/<{KEY}:token>", methods=["DELETE"])
@does(Action.CHANGE, Sort.API_TOKEN)
@blp.response(200, TokenOut)
def revoke_token(token: int) -> Any:
    """Revoke it: from this moment it lets nobody in. It stays on the list."""
    return _view(letting_in.revoke(here.store(), here.me(), token, here.now()))


def _view(token: ApiToken) -> dict[str, Any]:
    plain = ("id", "dealer", "label", "scopes", "made_at", "expires_at", "used_at", "revoked_at")
    return {
        **slots(token, *plain),
        "dealer_name": here.dealer_called(token.dealer),
        "state": token.state(here.now()).value,
        "made_by_name": here.called(token.person),
        "revoked_by_name": token.revoked_by and here.called(token.revoked_by),
    }
