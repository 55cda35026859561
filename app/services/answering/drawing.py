"""The drawing of a specification: what is settled, how it stands, and where the rules bite. Saves nothing."""

from __future__ import annotations

from datetime import datetime

from app.documents.drawings.drawing import Arrangement, Drawing, Standing, shell_drawing
from app.domain.asking.actor import Actor
from app.services.answering.specifying import Answered, Asked, answer
from app.services.quotations.working_out import standing_of_options
from app.store.db import Store
from rules.answer import Verdict
from rules.explain.reasons import reasons
from rules.specification import Specification


def draw(
    store: Store, actor: Actor, asked: Asked, now: datetime, language: str, arrangement: Arrangement
) -> Drawing | None:
    """The drawing, None where the book draws nothing. Raises what `specifying.answer` raises."""
    answered = answer(store, actor, asked, now)
    said = answered.answer
    stands = standing_of_options(said, asked.specification)
    standing = Standing(said.settled, stands, bites_of(answered, asked.specification))
    return shell_drawing(answered.book, standing, language, arrangement)


def bites_of(answered: Answered, specification: Specification) -> dict[str, tuple[str, ...]]:
    """option → ids, in the book's order, of the rules that its answer runs into; nothing where it can be built.

    Of all the ways in which answers clash only those that the answer's causes name, so that picture and words agree.
    """
    if answered.answer.verdict is not Verdict.CANT or answered.prepared is None:
        return {}
    order = answered.prepared.causes.places
    bites: dict[str, set[str]] = {}
    named = [reason for reason in reasons(answered.prepared, specification.choices())[0]
             if frozenset(reason.rules) in {frozenset(cause) for cause in answered.answer.causes}]  # fmt: skip
    for reason in named:
        for option, _ in reason.answers:
            bites.setdefault(option, set()).update(reason.rules)
    return {option: tuple(sorted(ids, key=order.__getitem__)) for option, ids in bites.items()}
