"""An account in one line, as papers print it. It looks nothing up and checks nothing."""

from __future__ import annotations

from collections.abc import Callable

from app.domain.money.bank import Account


def account_words(account: Account, say: Callable[..., str]) -> str:
    """Holder, account, and what is known besides."""
    told = [say("close.account", holder=account.holder, account=account.account)]
    if account.routing:
        told.append(say("close.account-routing", routing=account.routing))
    return " · ".join([*told, *([account.bank] if account.bank else [])])
