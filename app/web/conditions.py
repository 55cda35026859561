"""ETag, If-Match and Idempotency-Key (RFC 9110 section 13; the Idempotency-Key header draft)."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import wraps
from typing import Any

from flask import g, request

from app.domain.errors import KeyMissing, VersionMissing
from app.services.once import Once
from app.web import here

#: A version that nothing ever has: what an If-Match names that is not of ours.
NO_VERSION = -1

View = Callable[..., Any]


def tag(version: int) -> dict[str, str]:
    """The header that names this version."""
    return {"ETag": f'"{version}"'}


def edits(view: View) -> View:
    """Declare an edit: the view finds the version it was made on in `expected()`. Raises VersionMissing."""

    @wraps(view)
    def checked(*args: Any, **kwargs: Any) -> Any:
        g.expected = _version_sent()
        return view(*args, **kwargs)

    checked.edits = True  # type: ignore[attr-defined]
    return checked


def expected() -> int:
    """The version that the edit was made on."""
    version: int = g.expected
    return version


def creates(view: View) -> View:
    """Declare that the view makes something, once for each key: `once()`. Raises KeyMissing."""

    @wraps(view)
    def keyed(*args: Any, **kwargs: Any) -> Any:
        g.once = Once(_key_sent(), here.me().name, _fingerprint())
        return view(*args, **kwargs)

    keyed.creates = True  # type: ignore[attr-defined]
    return keyed


def once() -> Once:
    """The key, who sent it, and with what."""
    kept: Once = g.once
    return kept


def _version_sent() -> int:
    """A weak or foreign tag matches nothing; `*` says nothing about what was seen."""
    if "If-Match" not in request.headers or request.if_match.star_tag:
        raise VersionMissing
    strong = [t for t in request.if_match.as_set() if t and t.isascii() and t.isdigit() and len(t) < 16]
    return int(strong[0]) if len(strong) == 1 else NO_VERSION


def _key_sent() -> str:
    key = request.headers.get("Idempotency-Key", "").strip()
    if not 8 <= len(key) <= 200 or not key.isascii() or not key.isprintable():
        raise KeyMissing
    return key


def _fingerprint() -> str:
    parts = (
        request.method.encode(),
        request.path.encode(),
        request.get_data(cache=True),
        request.headers.get("If-Match", "").encode(),
    )
    return hashlib.sha256(b"\0".join(parts)).hexdigest()
