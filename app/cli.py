"""The commands and their arguments. Each says in plain words what went wrong; bad input shows no traceback.

What a command needs is imported when it runs: `--help` and a mistyped port are answered at once.
"""

from __future__ import annotations

import argparse
import logging
import os
import re
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path

from app import clock
from app.commands.stop import Stop

PORT = 8765
#: What we make is for our own account alone: the database holds names, addresses and password hashes.
OWNER_ALONE = 0o077


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 when it went well, 1 when it could not go on, 2 for bad arguments."""
    given = parser().parse_args(arguments)
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    before = os.umask(OWNER_ALONE)
    try:
        return command_of(given.command)(given)
    except Stop as stop:
        print(stop, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("stopped")
        return 0
    finally:
        os.umask(before)


def command_of(name: str) -> Callable[[argparse.Namespace], int]:
    """The function of a command, named as in `books.check_book`."""
    module, function = name.split(".")
    command: Callable[[argparse.Namespace], int] = getattr(import_module(f"app.commands.{module}"), function)
    return command


def parser() -> argparse.ArgumentParser:
    """Every command with its arguments."""
    top = argparse.ArgumentParser("python -m app", description="Bodywright: the order desk of a body-shell workshop.")
    commands = top.add_subparsers(required=True, metavar="COMMAND")
    demo_command(commands.add_parser("demo", help="load the demo firm, if the folder is empty, and serve it"))
    serve_command(commands.add_parser("serve", help="serve a desk that has been set up"))
    add_command(commands.add_parser("add-person", help="add the first manager of a new desk"))
    publish_command(commands.add_parser("publish-book", help="put a rule book in force"))
    check_command(commands.add_parser("check-book", help="read a rule book and prove it: all that is wrong or odd"))
    backup_command(commands.add_parser("backup", help="put the whole desk into one file, also while it is served"))
    restore_command(commands.add_parser("restore", help="take a desk out of a backup"))
    return top


def demo_command(own: argparse.ArgumentParser) -> None:
    """`demo`: everything on this machine, sign-ins printed."""
    own.add_argument("--port", type=port_number, default=PORT, help=f"where to serve on 127.0.0.1 (default {PORT})")
    own.add_argument("--data", type=Path, default=Path("demo-data"), help="folder of the data (default demo-data)")
    own.add_argument(
        "--now", type=standing_clock, default=clock.running, metavar="ISO", help="let the clock stand at this moment"
    )
    own.add_argument("--reset", action="store_true", help="throw away what was entered before and start over")
    own.set_defaults(command="serving.demo")


def serve_command(own: argparse.ArgumentParser) -> None:
    """`serve`: no demo secrets, nothing loaded."""
    own.add_argument("--host", default="127.0.0.1", help="address to listen on (default 127.0.0.1)")
    own.add_argument("--port", type=port_number, default=PORT)
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument(
        "--url",
        default=None,
        help="where people reach it, as in https://desk.example (default: the address it listens on)",
    )
    own.add_argument(
        "--proxy",
        default=None,
        metavar="ADDRESS",
        help="address of the TLS proxy whose X-Forwarded-For is believed",
    )
    own.set_defaults(command="serving.serve")


def add_command(own: argparse.ArgumentParser) -> None:
    """`add-person`: once, for the first manager."""
    own.add_argument("name", type=sign_in_name, help="the short name to sign in with")
    own.add_argument("display_name", help="the name as people know it")
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument("--language", choices=("en", "de"), default="en")
    own.set_defaults(command="people.add_first_manager")


def publish_command(own: argparse.ArgumentParser) -> None:
    """`publish-book`: for a desk that is set up from the command line."""
    own.add_argument("file", type=Path)
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument("--by", required=True, metavar="NAME", help="the manager who publishes it")
    own.add_argument("--note", default="")
    own.set_defaults(command="books.publish_book")


def check_command(own: argparse.ArgumentParser) -> None:
    """`check-book`: every mistake, or counts, proof and standard shells."""
    own.add_argument("file", type=Path)
    own.add_argument("--against", type=Path, metavar="FILE2", help="another book: what is lost, gained, priced anew")
    own.add_argument(
        "--lost", nargs="+", action="extend", default=[], metavar="TOOL", help="tools that count as lost (default none)"
    )
    own.add_argument("--csv", action="store_true", help="print the standard shells as CSV and nothing else")
    own.add_argument("--language", choices=("en", "de"), default="en", help="of the sentences (default en)")
    own.set_defaults(command="proof.check_book")


def backup_command(own: argparse.ArgumentParser) -> None:
    """`backup`: one file, or one more file in a folder."""
    own.add_argument("to", type=Path, help="the file to make, or a folder for a file named by the moment")
    own.add_argument("--data", type=Path, default=Path("data"))
    own.set_defaults(command="keeping.back_up")


def restore_command(own: argparse.ArgumentParser) -> None:
    """`restore`: into an empty folder, unless told otherwise."""
    own.add_argument("archive", type=Path, help="a file that `backup` made")
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument("--replace", action="store_true", help="put aside what the folder holds")
    own.set_defaults(command="keeping.restore")


def port_number(text: str) -> int:
    """A port that a person may take."""
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"{text!r} is no port: write a number from 1024 to 65535")
    return int(text)


def standing_clock(text: str) -> clock.Clock:
    """A clock that stands still."""
    try:
        return clock.fixed(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no moment: write it as in 2026-11-25T09:00:00+00:00") from None


def sign_in_name(text: str) -> str:
    """A short name of small letters, digits and hyphens."""
    if not re.fullmatch(r"[a-z][a-z0-9-]{1,39}", text):
        raise argparse.ArgumentTypeError(f"{text!r}: write 2 to 40 small letters, digits and hyphens, a letter first")
    return text
