"""What a suggestion is. Data only: words are made elsewhere, from the ids named here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rules.answer import Answer, Depends
from rules.specification import Origin, Specification


@dataclass(frozen=True, slots=True)
class Change:
    """One answer that changes, from choice `was` to choice `now`. `origin`: who had given it.

    `forced`: the reader's own answers, as they are then, leave nothing but `now`.
    """

    option: str
    was: str
    now: str
    origin: Origin
    forced: bool


@dataclass(frozen=True, slots=True)
class Beside:
    """Against another suggestion whose changes this one contains: `place` of it in `Suggestions.nearest`, from 0.

    `also`: options that change here and not there; `sheds`: parts and approvals that it carries and this one doesn't.
    """

    place: int
    also: tuple[str, ...]
    sheds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A shell that can be built, as changes to the answers given.

    `specification`: the answers after the changes, `answer`: what the engine says of them. `shell`: every option's
    choice, those left open filled with the cheapest that needs neither part nor approval. `price`: its lines before
    tax, whole minor units, None where not priced; `days`: its working days. Differences, `gains` and `sheds` (what the
    answers depend on now and did not before, and the other way round) are against the answers before the wish, as
    long as those can be built, filled in the same way; else against this shell with the answers asked about, which
    can't be built and depend on nothing. `beside`: the suggestions whose changes it contains. `before`: the
    whole shell that it is held against.
    """

    changes: tuple[Change, ...]
    specification: Specification
    answer: Answer
    shell: Mapping[str, str]
    price: int | None
    difference: int | None
    days: int
    days_difference: int
    gains: Depends
    sheds: Depends
    beside: tuple[Beside, ...] = ()
    before: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Suggestions:
    """`asked`: what the engine says of the answers with the wish among them; where that stands outright, all is empty.

    `nearest`: none of them contains the changes of one before it, or else it sheds a part or an approval that the
    other carries. `fill`: the nearest of the rest that need neither; they say `beside` what they also change. `keep`:
    all other answers kept, every other choice of the wished option that can be taken, in written order.
    """

    asked: Answer
    nearest: tuple[Suggestion, ...] = ()
    fill: tuple[Suggestion, ...] = ()
    keep: tuple[Suggestion, ...] = ()
