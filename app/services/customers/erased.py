"""What is said to whoever would write on a customer whose personal data were erased, or draw a paper of his anew."""

from __future__ import annotations

from app.domain.errors import DataErased
from app.store.customers import Kept


def erased(kept: Kept | None) -> DataErased | None:
    """The refusal, where his data were erased."""
    if kept is None or kept.erased is None:
        return None
    return DataErased(number=kept.id, day=kept.erased.at.date())


def refuse_erased(*people: Kept | None) -> None:
    """Raises DataErased for the first whose data were."""
    for refusal in map(erased, people):
        if refusal is not None:
            raise refusal
