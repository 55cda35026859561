"""Lines of one quotation that would print the same words: what they share is printed once, under all their numbers.

It compares what is printed, not what is meant: the caller says what is printed of a line.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

from app.documents.contents import QuotationPaper, ShellLine
from app.documents.saying.voice import Voice

#: Places in `QuotationPaper.shells`, from 0.
Places = tuple[int, ...]


def alike(shells: Sequence[ShellLine], printed: Callable[[ShellLine], Hashable]) -> list[Places]:
    """The places of lines of which the same is printed, together, in the order of the first of each."""
    if len(shells) == 1:
        return [(0,)]
    found: dict[Hashable, list[int]] = {}
    for place, shell in enumerate(shells):
        found.setdefault(printed(shell), []).append(place)
    return [tuple(places) for places in found.values()]


def shells_name(paper: QuotationPaper, places: Places, voice: Voice) -> str:
    """The shells of these lines in a few words, with their numbers where the quotation has several lines."""
    what = voice.shell(paper.shells[places[0]]) or voice.say("shell.unnamed")
    what += _quantity(paper, places, voice)
    if len(paper.shells) == 1:
        return what
    key = "shell.name" if len(places) == 1 else "shell.names"
    return voice.say(key, index=numbers(places), count=len(paper.shells), what=what)


def _quantity(paper: QuotationPaper, places: Places, voice: Voice) -> str:
    quantities = {paper.shells[place].quantity for place in places}
    if len(quantities) > 1 or quantities == {1}:
        return ""
    key = "shell.quantity" if len(places) == 1 else "shell.quantity-each"
    return " — " + voice.say(key, quantity=quantities.pop())


def numbers(places: Sequence[int]) -> str:
    """The lines' numbers, from 1, runs of three and more drawn together: 1–3, 7, 9."""
    runs: list[list[int]] = []
    for number in (place + 1 for place in places):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
