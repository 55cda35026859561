"""Files as they come and go: pictures that are sent, papers and pictures to look at, what is carried off."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response

#: What a route declares that answers with a paper: `@blp.response(200, **PDF)`.
PDF: Mapping[str, Any] = {"schema": {"type": "string", "format": "binary"}, "content_type": "application/pdf"}

#: What a route declares that answers with a picture: `@blp.response(200, **JPEG)`.
JPEG: Mapping[str, Any] = {"schema": {"type": "string", "format": "binary"}, "content_type": "image/jpeg"}

#: The kinds of picture that are taken.
PICTURES = ("image/jpeg", "image/png", "image/webp")

#: A paper may be looked at inside the desk's own page, and nowhere else.
PAPER_HEADERS = {
    "Content-Type": "application/pdf",
    "X-Frame-Options": "SAMEORIGIN",
    "Content-Security-Policy": (
        "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'self'"
    ),
}

#: A picture and nothing else, whatever a browser makes of it.
PICTURE_HEADERS = {
    "Content-Type": "image/jpeg",
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; sandbox; frame-ancestors 'none'",
}


def sent(*kinds: str) -> Mapping[str, Any]:
    """What a route declares whose body is a file of these kinds: `@blp.doc(**sent(*PICTURES))`."""
    return {"requestBody": {"required": True, "content": {kind: {} for kind in kinds}}}


def pdf(content: bytes, *name: str) -> Response:
    """A paper, to be looked at in the page or kept under that name, whose parts are joined by hyphens."""
    return Response(
        content, headers={"Content-Disposition": f'inline; filename="{"-".join(name)}.pdf"', **PAPER_HEADERS}
    )


def jpeg(content: bytes, name: str) -> Response:
    """A picture, to be looked at or kept under that name."""
    return Response(content, headers={"Content-Disposition": f'inline; filename="{name}.jpg"', **PICTURE_HEADERS})


def carried_off(content: bytes | str, content_type: str, name: str) -> Response:
    """A file to be kept under that name. A text goes out in UTF-8."""
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, headers=headers, content_type=content_type)
