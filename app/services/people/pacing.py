"""How often somebody may ask within a minute. Kept in memory: after a start everybody begins anew."""

from __future__ import annotations

from collections import deque
from collections.abc import Hashable
from datetime import datetime, timedelta
from threading import Lock
from weakref import WeakKeyDictionary

from app.domain.errors import SlowDown
from app.store.db import Store

MINUTE = timedelta(minutes=1)

#: Askers that are remembered before those who have been quiet for a minute are forgotten.
_MANY = 1_000

_Asked = dict[Hashable, deque[datetime]]
_asked: WeakKeyDictionary[Store, _Asked] = WeakKeyDictionary()
_door = Lock()


def keep_pace(store: Store, asker: Hashable, most: int, now: datetime, why: str) -> None:
    """Raises SlowDown, by the name of `why`, for what is more than `most` in the last minute."""
    with _door:
        every = _asked.setdefault(store, {})
        _forget_quiet(every, now)
        asked = every.setdefault(asker, deque())
        while asked and now - asked[0] >= MINUTE:
            asked.popleft()
        if len(asked) >= most:
            wait = MINUTE - (now - asked[0])
            raise SlowDown(why=why, seconds=max(1, int(wait.total_seconds()) + 1), most=most)
        asked.append(now)


def _forget_quiet(every: _Asked, now: datetime) -> None:
    if len(every) > _MANY:
        for asker in [one for one, asked in every.items() if not asked or now - asked[-1] >= MINUTE]:
            del every[asker]
