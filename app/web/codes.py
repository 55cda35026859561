"""The address that a paper's QR code ends in. Whoever is not signed in learns nothing from it, not even that it exists."""

from __future__ import annotations

from typing import Any

from flask import Flask, redirect

from app.services import quoting
from app.domain.errors import NotFound
from app.web import here, pages


def register(app: Flask) -> None:
    """Answer to /q/CODE."""
    app.add_url_rule("/q/<string(maxlength=80):code>", "by_code", by_code)


def by_code(code: str) -> Any:
    """The page while nobody is signed in: it asks for a sign-in and comes back here. Then: to the quotation."""
    if here.sign_in() is None:
        return pages.index()
    found = quoting.by_code(here.store(), code)
    if found is None:
        raise NotFound(what="code", name="")
    quoting.quotation(here.store(), here.me(), found[0], here.now())
    return redirect(f"/quotations/{found[0]}?revision={found[1]}")
