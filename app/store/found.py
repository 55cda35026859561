"""By what an enquiry may have been found: its facts as they were typed, many enquiries at a time. Reads only."""

from __future__ import annotations

from collections.abc import Sequence

from sqlite_utils import Database

#: Sort, and what it reads of one enquiry: the sorts in the order in which they are told.
_FACTS = (
    ("name", "SELECT enquiries.id, name FROM enquiries JOIN customers ON customers.id = customer"),
    (
        "former-name",
        "SELECT enquiries.id, name FROM enquiries JOIN customers ON customers.merged_into = customer",
    ),
    ("telephone", "SELECT enquiries.id, telephone FROM enquiries JOIN customers ON customers.id = customer"),
    ("telephone", "SELECT enquiries.id, telephone FROM enquiries JOIN customers ON merged_into = customer"),
    ("email", "SELECT enquiries.id, email FROM enquiries JOIN customers ON customers.id = customer"),
    ("email", "SELECT enquiries.id, email FROM enquiries JOIN customers ON merged_into = customer"),
    ("donor", "SELECT enquiries.id, number_text FROM enquiries JOIN donors ON donors.id = donor"),
    ("donor", "SELECT enquiries.id, car FROM enquiries"),
    ("reference", "SELECT enquiries.id, reference FROM enquiries"),
    ("quotation", "SELECT enquiries.id, number FROM enquiries JOIN quotations ON enquiry = enquiries.id"),
    (
        "order",
        "SELECT enquiries.id, orders.number FROM enquiries JOIN quotations ON enquiry = enquiries.id "
        "JOIN orders ON quotation = quotations.id",
    ),
)


def facts_of(db: Database, enquiries: Sequence[int]) -> dict[int, dict[str, list[str]]]:
    """Key of the enquiry → sort → texts as typed."""
    marks = ", ".join("?" * len(enquiries))
    told: dict[int, dict[str, list[str]]] = {key: {} for key in enquiries}
    for sort, sql in _FACTS:
        for key, text in db.execute(f"{sql} WHERE enquiries.id IN ({marks})", [*enquiries]).fetchall():
            told[key].setdefault(sort, []).append(text)
    return told
