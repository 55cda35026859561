"""How long somebody who guesses passwords has to wait. Pure: when tries failed goes in, seconds come out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil

#: Failed tries older than this count no more.
MEMORY = timedelta(minutes=30)


@dataclass(frozen=True, slots=True)
class Patience:
    """`free` failures cost nothing; each one more doubles the wait from `first` seconds, up to `most`."""

    free: int
    first: int = 4
    most: int = 900


#: A name from one address: a heavy hand is not held up. An address trying many names: an office shares one.
#: A name from anywhere: waits stay short, or a stranger could lock somebody out.
SAME_NAME_AND_ADDRESS = Patience(free=5)
SAME_ADDRESS = Patience(free=20)
SAME_NAME = Patience(free=20, first=2, most=30)


def seconds_to_wait(failed: Sequence[datetime], patience: Patience, now: datetime) -> int:
    """Whole seconds until the next try is heard, 0 for at once; `failed` in order, the latest last."""
    beyond = len(failed) - patience.free
    if beyond < 0 or not failed:
        return 0
    wait = min(patience.first << min(beyond, 20), patience.most)
    return max(0, ceil(wait - (now - failed[-1]).total_seconds()))
