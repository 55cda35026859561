"""What usual, chosen and forced mean, said once: form, drawing and papers all ask here.

A choice that is what the original car had is usual, whoever gave it. Of the rest, what the reader answered himself is
chosen, and what he left open and the other answers leave alone is forced. Who pressed first never tells: an answer of
the reader's own is not forced by another of his, for two may leave each other nothing else, and neither came first.
"""

from __future__ import annotations

from rules.answer import OptionAnswer, State
from rules.specification import Origin, Taken


def standing_of(choice: str, usual: str | None, taken: Taken | None, *, only: bool) -> State:
    """How a choice stands that nothing is said against.

    `usual`: the option's, by the series and market ordered; None while these are open, and where there is none.
    `taken`: the option's answer; `only`: the other answers leave nothing else.
    """
    if taken is not None and taken.choice != choice:
        return State.OPEN
    if taken is None and not only:
        return State.OPEN
    if choice == usual:
        return State.USUAL
    return _departing(usual, taken, only)


def settled_standing(option: OptionAnswer, taken: Taken | None) -> State | None:
    """How the option's settled choice stands, or would if the answers did not clash; None where it is open."""
    settled = next((choice for choice in option.choices if choice.choice == option.settled), None)
    if settled is None or settled.state is not State.CLOSED:
        return None if settled is None else settled.state
    usual = next((choice.choice for choice in option.choices if choice.usual), None)
    return standing_of(settled.choice, usual, taken, only=False)


def _departing(usual: str | None, taken: Taken | None, only: bool) -> State:
    """Not known to be usual: taken over it is, until series and market say otherwise."""
    if taken is not None and taken.origin is Origin.CHOSEN:
        return State.CHOSEN
    if only:
        return State.FORCED
    return State.USUAL if usual is None else State.CHOSEN
