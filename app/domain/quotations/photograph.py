"""A photograph kept with an enquiry: what it shows, who added it when. Its bytes are the store's business."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from app.domain.quotations.enquiry import Source


class Shows(Enum):
    """What a photograph is of. PART: a customer's part and its condition."""

    PLATE = "plate"
    RECORD = "factory-record"
    CAR = "car"
    PART = "part"


#: Who says so → what a photograph must show to be pointed at for it; the owner's word may be any picture of his.
PROVES = {Source.PLATE: (Shows.PLATE,), Source.FACTORY: (Shows.RECORD,), Source.OWNER: tuple(Shows)}


@dataclass(frozen=True, slots=True)
class Photograph:
    """`part`: the rule that asks for the part that it shows, or empty. `width`, `height` in pixels, `size` in bytes."""

    id: int
    enquiry: int
    shows: Shows
    part: str
    note: str
    width: int
    height: int
    size: int
    at: datetime
    by: str
