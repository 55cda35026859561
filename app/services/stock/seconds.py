"""Seconds: a rejected shell that the firm sells as it is, from stock, by a concession."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import StockUnready
from app.domain.floor.shell import ShellState
from app.domain.stock import Source, Unready
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor.building import begin_another
from app.services.floor.finding import known_shell, note_shell
from app.services.once import Once, perform
from app.services.planning.dating import Working
from app.services.stock.stock_floor import join
from app.store.db import Store


def take_in(
    store: Store, actor: Actor, key: int, why: str, working: Working, now: datetime, *, once: Once | None = None
) -> int:
    """A rejected shell comes into stock as it is: its key there. `why`: by which concession it is sold.

    Another is begun in its place, where none was: its order is owed one all the same.

    Raises NotFound, BadInput, StockUnready, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = known_shell(store, db, actor, key, now)
        if found.shell.state is not ShellState.REJECTED or found.whole.stock is not None:
            raise StockUnready(number=found.shell.serial or "", why=Unready.NO_SECOND.value)
        if not found.over:
            begin_another(store, db, actor, found, working, now)
        made = join(db, actor, found.whole, found.gated, found.shell, Source.SECOND, why, now)
        note_shell(db, found, "shell-second", actor, now, why=why)
        return made

    return int(perform(store, once, now, write))
