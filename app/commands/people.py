"""`add-person`: the one person whom nobody who is signed in could add."""

from __future__ import annotations

import argparse
import getpass
import sys

from app import clock
from app.commands.desk import opened
from app.commands.stop import Stop
from app.config import Config
from app.domain.asking.members import SHORTEST_PASSWORD
from app.domain.asking.people import Person, Role
from app.factory import hasher_of
from app.services.people import signing_in


def add_first_manager(given: argparse.Namespace) -> int:
    """Add the first manager of a desk that knows nobody yet."""
    config = Config(given.data)
    store = opened(config)
    if signing_in.anybody(store):
        raise Stop("This desk has people already. A manager who is signed in adds the others.")
    person = Person(given.name, given.display_name, Role.MANAGER, language=given.language)
    signing_in.add_person(store, hasher_of(config.cost), person, asked_password(), clock.running())
    print(f"{given.name} can sign in as manager of {given.data}.")
    return 0


def asked_password() -> str:
    """A password from the keyboard, or from a pipe. Raises Stop for a short one."""
    password = getpass.getpass("Password: ") if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")
    if len(password) < SHORTEST_PASSWORD:
        raise Stop(f"A manager's password has at least {SHORTEST_PASSWORD} characters. Four unlike words keep well.")
    return password
