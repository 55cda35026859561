"""Which of the safety faults that stand may be in a shell of an order: they stop it, and its days with it."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.floor.safety import Built, Reached, concerns, reached
from app.domain.floor.shell import Deed
from app.domain.orders.order import Shell
from app.services.answering.pricing import day_of
from app.services.orders.seating import GatedShell, WholeOrder


def faults_in(whole: WholeOrder, gated: GatedShell, shell: Shell) -> list[tuple[int, Mapping[str, str]]]:
    """Id of each and what is wrong, in the languages in which it was said; none stops what has left the house."""
    if reached(shell.state) in (None, Reached.DESPATCHED):
        return []
    as_built = built(whole, gated, shell)
    return [(fault.id, fault.why) for fault in whole.tools.faults if concerns(fault.at_fault, as_built)]


def built(whole: WholeOrder, gated: GatedShell, shell: Shell) -> Built:
    """The shell as far as a fault asks."""
    done = {one.stage: day_of(whole.book, one.at) for one in shell.deeds if one.deed is Deed.DONE and one.stage}
    return Built(whole.book, whole.order.frozen.donor.facts(), gated.frozen.settled, shell.state, done)
