"""Answers that are files: papers to be looked at inside the page, and what is carried off."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response

#: What a route declares that answers with a paper: `@blp.response(200, **PDF)`.
PDF: Mapping[str, Any] = {"schema": {"type": "string", "format": "binary"}, "content_type": "application/pdf"}

#: A paper may be looked at inside the desk's own page, and nowhere else.
PAPER_HEADERS = {
    "Content-Type": "application/pdf",
    "X-Frame-Options": "SAMEORIGIN",
    "Content-Security-Policy": (
        "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'self'"
    ),
}


def pdf(content: bytes, *name: str) -> Response:
    """A paper, to be looked at in the page or kept under that name, whose parts are joined by hyphens."""
    return Response(
        content, headers={"Content-Disposition": f'inline; filename="{"-".join(name)}.pdf"', **PAPER_HEADERS}
    )


def carried_off(content: bytes | str, content_type: str, name: str) -> Response:
    """A file to be kept under that name. A text goes out in UTF-8."""
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, headers=headers, content_type=content_type)
