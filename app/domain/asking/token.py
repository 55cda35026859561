"""A token lets a dealer's own program in: as the person who made it, for no more than its scopes. No storage, no HTTP.

Every scope only reads and asks: no token writes anything but the hour of its own use.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from app.domain.asking.people import Action, Sort


class Scope(StrEnum):
    """What a token is for. PRICES adds the amounts to what the others give; it opens nothing by itself."""

    CHECK = "check"
    QUOTATIONS = "quotations"
    ORDERS = "orders"
    PRICES = "prices"


#: What each scope lets a program do, of what its person may do: the closed list.
GRANTS: Mapping[Scope, frozenset[tuple[Action, Sort]]] = {
    Scope.CHECK: frozenset({(Action.READ, Sort.BOOK), (Action.ASK, Sort.BOOK), (Action.ASK, Sort.DONOR_NUMBER)}),
    Scope.QUOTATIONS: frozenset({(Action.READ, Sort.QUOTATION), (Action.READ, Sort.RETAIL)}),
    Scope.ORDERS: frozenset({(Action.READ, Sort.ORDER)}),
    Scope.PRICES: frozenset(),
}


class TokenState(StrEnum):
    LIVE = "live"
    EXPIRED = "expired"
    REVOKED = "revoked"


@dataclass(frozen=True, slots=True)
class ApiToken:
    """`person`: who made it, as whom it reads; `expires_at`: the first moment at which it lets nobody in."""

    id: int
    dealer: str
    person: str
    label: str
    scopes: tuple[Scope, ...]
    made_at: datetime
    expires_at: datetime | None = None
    used_at: datetime | None = None
    revoked_at: datetime | None = None
    revoked_by: str | None = None

    def state(self, now: datetime) -> TokenState:
        if self.revoked_at is not None:
            return TokenState.REVOKED
        expired = self.expires_at is not None and now >= self.expires_at
        return TokenState.EXPIRED if expired else TokenState.LIVE


def grants(scopes: Collection[Scope], action: Action, sort: Sort) -> bool:
    """Whether one of the scopes lets a program do this."""
    return any((action, sort) in GRANTS[scope] for scope in scopes)
