"""Taking an enquiry down, changing it, finding it again. A dealer's work is his own: of another's there is no trace."""

from __future__ import annotations

from datetime import datetime

from app.domain.actor import Actor
from app.domain.enquiry import Enquiry, Wish
from app.services.once import Once
from app.store.db import Store


def create_enquiry(store: Store, actor: Actor, wish: Wish, now: datetime, *, once: Once | None = None) -> Enquiry:
    """Takes it down; a dealer's becomes his own. Raises BadInput with every field at fault, KeyReused, Underway."""
    raise NotImplementedError


def edit_enquiry(store: Store, actor: Actor, enquiry: int, wish: Wish, now: datetime, *, expected: int) -> Enquiry:
    """Replaces what was typed. Raises NotFound, BadInput, ChangedByAnother."""
    raise NotImplementedError


def enquiry(store: Store, actor: Actor, enquiry: int) -> Enquiry:
    """Raises NotFound, for another dealer's exactly as for one that does not exist."""
    raise NotImplementedError


def find_enquiries(store: Store, actor: Actor, text: str = "", *, page: int = 1, size: int = 50) -> tuple[Enquiry, ...]:
    """Those whose customer's name, telephone, donor number, reference or quotation number holds every word of `text`.

    The last changed first; all of them for an empty text.
    """
    raise NotImplementedError
