"""What was worked out and may be asked for again: so much of it, then all is forgotten at once.

Safe to read from several threads: ask with `get`, and go on with what `keep` gives back. What was there a moment ago
another thread may have forgotten.
"""

from __future__ import annotations

from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


class Memory(dict[K, V]):
    """`room`: things remembered at most."""

    __slots__ = ("room",)

    def __init__(self, room: int) -> None:
        super().__init__()
        self.room = room

    def keep(self, key: K, thing: V) -> V:
        """Remember it, and give it back."""
        if len(self) >= self.room:
            self.clear()
        self[key] = thing
        return thing
