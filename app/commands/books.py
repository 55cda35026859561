"""`publish-book`: a rule book read from a file and put in force."""

from __future__ import annotations

import argparse
from pathlib import Path

from app import calendar, clock
from app.commands.desk import opened
from app.commands.stop import Stop
from app.config import Config
from app.domain.asking.people import Role
from app.domain.errors import BookRefused, BookTooBranched, Refusal
from app.services.books import publishing
from app.services.people import signing_in


def publish_book(given: argparse.Namespace) -> int:
    """Put a book in force in the name of a manager."""
    store = opened(Config(given.data))
    person = signing_in.person(store, given.by)
    if person is None or person.role is not Role.MANAGER:
        raise Stop(
            f"{given.by} is no manager of this desk. Add one with:\n"
            f'  python -m app add-person {given.by} "Full Name" --data {given.data}'
        )
    try:
        number = publishing.publish_book(
            store,
            person,
            text_of(given.file),
            clock.running(),
            file=str(given.file),
            note=given.note,
            regions=calendar.knows,
        )
    except BookRefused as refused:
        raise Stop("\n".join(f"{m.file}:{m.line}: {m.what} {m.instead}" for m in refused.mistakes)) from None
    except BookTooBranched:
        raise Stop(
            "The book branches too far to be worked out. Split options that have nothing to do with each other."
        ) from None
    except Refusal as refused:
        raise Stop(f"Not published: {refused.slug}.") from None
    print(f"{given.file} is in force as book {number}.")
    return 0


def text_of(file: Path) -> str:
    """The file's text. Raises Stop where it can't be read."""
    try:
        return file.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise Stop(f"{file} is not UTF-8 text (byte {error.start}). Save it as UTF-8.") from None
    except OSError as error:
        raise Stop(f"{file} can't be read ({error.strerror}). Give the path of a rule book.") from None
