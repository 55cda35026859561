"""A list page by page: where the page before ended, and the address of the next. Shaping only."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from flask import request

from app.domain.paging import Page, Position, key_of, position_in
from app.web import here

#: What asks for the first page of a list that nothing narrows.
FIRST_PAGE: Mapping[str, Any] = {"after": ""}


def turn_after(query: Mapping[str, Any]) -> int | None:
    """Where the page before ended, of a list whose order is told by one number; None for the first. Raises BadInput."""
    found = after(query, int)
    return None if found is None else int(found[0])


def after(query: Mapping[str, Any], *kinds: type, path: str | None = None) -> Position | None:
    """Where the page before ended; None for the first. `path`: as of the next. Raises BadInput."""
    return position_in(query["after"], _of(query, path), kinds) if query["after"] else None


def next_of(found: Page[Any], query: Mapping[str, Any], *, path: str | None = None) -> str | None:
    """The address of the page that follows, narrowed as this one; None where nothing follows.

    `path`: of the list, where a deed answers with its first page.
    """
    if found.next is None:
        return None
    asked = {name: value for name, value in query.items() if name != "after" and value != ""}
    return f"{path or request.path}?{urlencode({**asked, 'after': key_of(_of(query, path), found.next)})}"


def _of(query: Mapping[str, Any], path: str | None) -> tuple[str, ...]:
    """What a key is good for: this list, narrowed as it was, of whoever may read as much of it."""
    asked = (f"{name}={value}" for name, value in sorted(query.items()) if name != "after")
    return (path or request.path, here.me().dealer or "", *asked)
