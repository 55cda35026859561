"""What a body says of whoever signs a deed in the workshop."""

from __future__ import annotations

from app.web.fields import Base, Text


class SignatureIn(Base):
    """`by`: who signs with his personal `code`, as he signs in."""

    by = Text(required=True, least=1)
    code = Text(required=True, least=1, most=40)
