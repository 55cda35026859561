"""Settings of one running desk. There is no secret among them: every token is drawn at random and kept hashed."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

from app.clock import Clock, running

ROOT = Path(__file__).resolve().parent.parent


@dataclass(frozen=True, slots=True)
class PasswordCost:
    """argon2id: passes over `memory_kib`; the defaults are the low-memory profile of RFC 9106."""

    time: int = 3
    memory_kib: int = 65_536
    lanes: int = 4


#: For the demo and the tests only: its sign-ins are printed on the screen anyway.
CHEAP = PasswordCost(time=1, memory_kib=64, lanes=1)


@dataclass(frozen=True, slots=True)
class Config:
    """`data`: the folder of this desk. `url`: where people reach it, without a slash at the end."""

    data: Path
    url: str = "http://127.0.0.1:8765"
    clock: Clock = running
    demo: bool = False
    cost: PasswordCost = field(default_factory=PasswordCost)
    frontend: Path = ROOT / "frontend"
    largest_body: int = 1_000_000
    largest_file: int = 15_000_000
    session_hours: int = 12

    @property
    def loopback(self) -> bool:
        """Whether people reach it on their own machine only."""
        return urlsplit(self.url).hostname in ("127.0.0.1", "localhost", "::1")

    @property
    def secure_cookie(self) -> bool:
        """Whether the browser may send the cookie over TLS only: everywhere but on the loopback address."""
        return not self.loopback
