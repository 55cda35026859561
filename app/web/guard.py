"""Each view declares what it does to what sort of thing; here that is held against the one table.

Whether a thing that was found belongs to the reader is settled where it is loaded, by the same table's reach; what is
another's answers exactly as what does not exist.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from app.domain.asking.people import Action, Sort, reach
from app.domain.asking.token import GRANTS, Scope, grants
from app.domain.errors import MayNot, OutOfScope
from app.web import here

View = Callable[..., Any]


def does(action: Action, sort: Sort) -> Callable[[View], View]:
    """Declare it. The view is reached only by roles with any reach there; else NotSignedIn or MayNot."""

    def declare(view: View) -> View:
        @wraps(view)
        def guarded(*args: Any, **kwargs: Any) -> Any:
            person = here.me()
            if reach(person.role, action, sort) is None:
                raise MayNot(action=action.value, role=person.role.value)
            _refuse_out_of_scope(action, sort)
            return view(*args, **kwargs)

        guarded.does = (action, sort)  # type: ignore[attr-defined]
        return guarded

    return declare


def refuse_hidden_prices() -> None:
    """For what is full of amounts and can't be told without them. Raises MayNot while the reader's are hidden."""
    if not here.prices_visible() and here.scopes() is not None:
        raise OutOfScope(needs=(Scope.PRICES.value,))
    if not here.prices_visible():
        raise MayNot(action=Action.READ.value, role=here.me().role.value, why="prices-hidden")


def _refuse_out_of_scope(action: Action, sort: Sort) -> None:
    """A program does no more than its token is for."""
    own = here.scopes()
    if own is not None and not grants(own, action, sort):
        needs = tuple(scope.value for scope in Scope if (action, sort) in GRANTS[scope])
        raise OutOfScope(needs=needs, why="" if needs else "for-no-program")


def for_anybody_signed_in(view: View) -> View:
    """Declare that the view is the signed-in person's own affair."""

    @wraps(view)
    def guarded(*args: Any, **kwargs: Any) -> Any:
        here.me()
        if here.scopes() is not None:
            raise OutOfScope(needs=(), why="for-no-program")
        return view(*args, **kwargs)

    guarded.does = "signed-in"  # type: ignore[attr-defined]
    return guarded


def for_anybody(view: View) -> View:
    """Declare that the view needs no sign-in."""
    view.does = "anybody"  # type: ignore[attr-defined]
    return view
