"""Who asks. Services need no more of a person than this."""

from __future__ import annotations

from typing import Protocol


class Actor(Protocol):
    """`name` is what he signs in with, `display_name` what papers call him.

    `dealer` is the id of his dealer, None for the firm's own people.
    """

    @property
    def name(self) -> str: ...

    @property
    def display_name(self) -> str: ...

    @property
    def dealer(self) -> str | None: ...
