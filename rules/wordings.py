"""Texts of papers and letters that a firm may say in its own words, and what each can name. Shipped words are outside.

An id is that of the shipped sentence with hyphens. A line end within a text is written ¶ in a rule book.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

#: Ends a line within a text, set apart by spaces; two of them end a paragraph.
LINE_END = "¶"

_LETTER = ("name", "number", "letter", "issued", "valid", "parts", "author", "sender")
_HEAD = ("number", "letter", "issued", "valid")
_MOVED = ("name", "number", "shell", "was_from", "was_to", "from", "to", "author", "sender")

#: id → what can be named in it, in braces.
WORDINGS: Mapping[str, tuple[str, ...]] = {
    # What stands at the end of a quotation.
    "close-included-shell": (),
    "close-included-lines": (),
    "close-excluded-lines": (),
    "close-excluded-identity": (),
    "close-excluded-import": (),
    "close-delivery-no-term": (),
    "close-payment-stages": ("percent",),
    "close-payment-bank": (),
    "close-changes-default": (),
    "close-warranty-default": (),
    "accept-text": ("number", "revision"),
    # Cautions of every paper.
    "close-caution-component": (),
    "tax-caution-export-evidence": (),
    "tax-caution-confirm-with-accountant": (),
    "tax-caution-home-mainland-only": (),
    # What a quotation says of days and parts.
    "date-slots": ("day",),
    "send-consequence": (),
    # The order form, the difference sheet and the order confirmation.
    "form-after-text": (),
    "form-confirmed-text": ("firm",),
    "form-text": ("number", "revision"),
    "difference-text": ("number", "revision"),
    "confirmation-policy": (),
    # What goes out with a part that a customer sends.
    "cut-lead": (),
    "cut-before": (),
    "cut-ask": (),
    "keep-lead": (),
    "tag-yours": (),
    # The change note, and a shell from stock.
    "note-waits": (),
    "note-sign": ("number", "order"),
    "note-before-a-hand": (),
    "stock-terms": (),
    # What goes with a shell: despatch advice, export data, evidence letter, declaration.
    "leaving-damage": ("days",),
    "leaving-importers": (),
    "leaving-evidence-text": ("firm", "serial", "shell"),
    "leaving-donor-stated": ("donor",),
    "leaving-authority-decides": (),
    "leaving-component": (),
    "leaving-conforms": (),
    "leaving-no-approval": (),
    # Letters.
    "letter-offer-subject": _HEAD,
    "letter-offer": _LETTER,
    "letter-offer-parts": _LETTER,
    "letter-reminder-subject": _HEAD,
    "letter-reminder": _LETTER,
    "letter-lapse-notice-subject": _HEAD,
    "letter-lapse-notice": _LETTER,
    "letter-part-request-subject": _HEAD,
    "letter-part-request": _LETTER,
    "letter-moved-subject": ("number", "shell"),
    "letter-moved": _MOVED,
    "letter-released-subject": ("number", "shell"),
    "letter-released": ("name", "number", "shell", "was_from", "was_to", "author", "sender"),
    "letter-safety-subject": ("serial",),
    "letter-safety": ("name", "serial", "order", "day", "why", "author", "sender"),
}

_NAMED = re.compile(r"\{([a-z_]+)\}")


def wording_of(key: str) -> str:
    """The id under which a shipped sentence (`close.payment-bank`) may be worded by the firm."""
    return key.replace(".", "-")


def unfilled(text: str, slots: Collection[str]) -> str | None:
    """The first thing in braces that none of `slots` is, or a lone brace; None where all can be filled."""
    for found in re.finditer(r"\{[^{}]*\}|[{}]", text):
        named = _NAMED.fullmatch(found[0])
        if named is None or named[1] not in slots:
            return found[0]
    return None


def written(text: str) -> str:
    """A text as one line, as a rule book holds it."""
    return f" {LINE_END} ".join(" ".join(line.split()) for line in text.strip().split("\n")).replace("  ", " ")


def spoken(line: str) -> str:
    """The inverse of `written`."""
    return "\n".join(part.strip() for part in line.split(LINE_END))
