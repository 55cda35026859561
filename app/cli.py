"""The commands. Each says in plain words what went wrong and what to do instead; bad input shows no traceback."""

from __future__ import annotations

import argparse
import getpass
import logging
import re
import signal
import socket
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from app import clock
from app.config import CHEAP, Config
from app.domain.errors import BookRefused, BookTooBranched, Refusal
from app.domain.people import Person, Role
from app.factory import hasher_of, make_app, open_store
from app.services import publishing, signing_in
from app.store.db import Store
from rules.ask import ask, prepare
from rules.diagram import TooLarge
from rules.model import Book
from rules.price import Tariff
from rules.reading import BookMistakes, read_book, summary
from rules.specification import Donor, Specification

HOST = "127.0.0.1"
PORT = 8765
THREADS = 8
#: The desk itself refuses above 1 MB, with a problem that says so; beyond this the connection is cut.
LARGEST_HEARD = 64_000_000
SHORTEST_PASSWORD = 12


class Stop(Exception):
    """A command that can't go on: what is wrong, and how to mend it."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 when it went well, 1 when it could not go on, 2 for bad arguments."""
    given = parser().parse_args(arguments)
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    try:
        command: Callable[[argparse.Namespace], int] = given.command
        return command(given)
    except Stop as stop:
        print(stop, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("stopped")
        return 0


def parser() -> argparse.ArgumentParser:
    """Every command with its arguments."""
    top = argparse.ArgumentParser("python -m app", description="Bodywright: the order desk of a body-shell workshop.")
    commands = top.add_subparsers(required=True, metavar="COMMAND")
    demo_command(commands.add_parser("demo", help="load the demo firm, if the folder is empty, and serve it"))
    serve_command(commands.add_parser("serve", help="serve a desk that has been set up"))
    check_command(commands.add_parser("check-book", help="read a rule book and say all that is wrong with it"))
    publish_command(commands.add_parser("publish-book", help="put a rule book in force"))
    add_command(commands.add_parser("add-person", help="add the first manager of a new desk"))
    return top


def demo_command(own: argparse.ArgumentParser) -> None:
    """`demo`: everything on this machine, sign-ins printed."""
    own.add_argument("--port", type=port_number, default=PORT, help=f"where to serve on {HOST} (default {PORT})")
    own.add_argument("--data", type=Path, default=Path("demo-data"), help="folder of the data (default demo-data)")
    own.add_argument(
        "--now", type=standing_clock, default=clock.running, metavar="ISO", help="let the clock stand at this moment"
    )
    own.add_argument("--reset", action="store_true", help="throw away what was entered before and start over")
    own.set_defaults(command=demo)


def serve_command(own: argparse.ArgumentParser) -> None:
    """`serve`: no demo secrets, nothing loaded."""
    own.add_argument("--host", default=HOST, help=f"address to listen on (default {HOST})")
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
        help="address of the TLS proxy whose X-Forwarded headers are believed",
    )
    own.set_defaults(command=serve)


def check_command(own: argparse.ArgumentParser) -> None:
    """`check-book`: every mistake, or the counts."""
    own.add_argument("file", type=Path)
    own.set_defaults(command=check_book)


def publish_command(own: argparse.ArgumentParser) -> None:
    """`publish-book`: for a desk that is set up from the command line."""
    own.add_argument("file", type=Path)
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument("--by", required=True, metavar="NAME", help="the manager who publishes it")
    own.add_argument("--note", default="")
    own.set_defaults(command=publish_book)


def add_command(own: argparse.ArgumentParser) -> None:
    """`add-person`: once, for the first manager."""
    own.add_argument("name", type=sign_in_name, help="the short name to sign in with")
    own.add_argument("display_name", help="the name as people know it")
    own.add_argument("--data", type=Path, default=Path("data"))
    own.add_argument("--language", choices=("en", "de"), default="en")
    own.set_defaults(command=add_first_manager)


def demo(given: argparse.Namespace) -> int:
    """Load the demo firm where the folder is empty, serve it, print each person's sign-in."""
    from demo.people import PEOPLE

    heed_signals()
    listening = listen(HOST, given.port, "make demo PORT={port}")
    config = Config(given.data, url=f"http://{HOST}:{given.port}", clock=given.now, demo=True, cost=CHEAP)
    if given.reset:
        forget(given.data)
    store = opened(config)
    if not signing_in.anybody(store):
        print("Loading the demo firm …", flush=True)
        load_demo(config, store)
    print_sign_ins(config.url, PEOPLE)
    return run(config, store, listening)


def serve(given: argparse.Namespace) -> int:
    """Serve a desk that has a manager and a book."""
    config = Config(given.data, url=(given.url or f"http://{given.host}:{given.port}").rstrip("/"))
    if urlsplit(config.url).scheme not in ("http", "https") or not urlsplit(config.url).hostname:
        raise Stop(f"{given.url} is no address. Write it as in --url https://desk.example")
    if not config.loopback and urlsplit(config.url).scheme != "https":
        raise Stop(
            f"People would send their passwords to {config.url} in the clear. Put a TLS proxy before it and give --url https://…"
        )
    if not (given.data / "desk.sqlite3").is_file():
        raise Stop(not_set_up(given.data))
    heed_signals()
    listening = listen(given.host, given.port, "--port {port}")
    store = opened(config)
    if not signing_in.anybody(store) or not publishing.published_books(store):
        raise Stop(not_set_up(given.data))
    print(f"Bodywright serves {given.data} at {config.url} — stop it with Ctrl-C", flush=True)
    return run(config, store, listening, proxy=given.proxy)


def check_book(given: argparse.Namespace) -> int:
    """Say every mistake with its place and what to write instead, or the book's counts."""
    try:
        book = read_book(text_of(given.file), str(given.file))
    except BookMistakes as found:
        for mistake in found.mistakes:
            print(f"{mistake.file}:{mistake.line}: {mistake.what} {mistake.instead}", file=sys.stderr)
        print(f"{len(found.mistakes)} to mend.", file=sys.stderr)
        return 1
    for line in counted(book):
        print(line)
    return 0


def publish_book(given: argparse.Namespace) -> int:
    """Put a book in force in the name of a manager."""
    config = Config(given.data)
    store = opened(config)
    person = signing_in.person(store, given.by)
    if person is None or person.role is not Role.MANAGER:
        raise Stop(
            f"{given.by} is no manager of this desk. Add one with:\n"
            f'  python -m app add-person {given.by} "Full Name" --data {given.data}'
        )
    try:
        number = publishing.publish_book(
            store, person, text_of(given.file), clock.running(), file=str(given.file), note=given.note
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


def load_demo(config: Config, store: Store) -> None:
    """The whole demo firm, or nothing of it."""
    from demo.loading import load
    from demo.people import PEOPLE

    hasher, now = hasher_of(config.cost), config.clock()
    with store.writing():
        load(store, now)
        for person, password in PEOPLE:
            signing_in.add_person(store, hasher, person, password, now)


def run(config: Config, store: Store, listening: socket.socket, proxy: str | None = None) -> int:
    """Serve until Ctrl-C or until told to end."""
    from waitress.server import create_server

    forwarded: dict[str, Any] = {"trusted_proxy": proxy, "trusted_proxy_headers": {"x-forwarded-for"}} if proxy else {}
    server = create_server(
        make_app(config, store),
        sockets=[listening],
        threads=THREADS,
        ident=None,
        max_request_body_size=LARGEST_HEARD,
        **forwarded,
    )
    try:
        server.run()
    finally:
        server.close()
    print("stopped", flush=True)
    return 0


def listen(host: str, port: int, elsewhere: str) -> socket.socket:
    """A listening place. Raises Stop where it is taken, before anything is loaded."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
    except OSError as error:
        listening.close()
        other = elsewhere.format(port=port + 1 if port < 65535 else PORT)
        raise Stop(
            f"Port {port} on {host} can't be had ({error.strerror}). Stop what runs there, or take another: {other}"
        ) from None
    return listening


def opened(config: Config) -> Store:
    """The store in the data folder. Raises Stop where the folder can't be used."""
    try:
        config.data.mkdir(parents=True, exist_ok=True)
        return open_store(config)
    except OSError as error:
        raise Stop(f"The folder {config.data} can't be used ({error.strerror}). Give another with --data.") from None


def forget(data: Path) -> None:
    """Remove the desk's own files from the folder, and nothing else."""
    for name in ("desk.sqlite3", "desk.sqlite3-wal", "desk.sqlite3-shm"):
        (data / name).unlink(missing_ok=True)


def print_sign_ins(url: str, people: Sequence[tuple[Person, str]]) -> None:
    """Where it is, and everybody's sign-in, in columns."""
    rows = [("name", "password", "role", "who")]
    rows += [
        (p.name, password, p.role.value, p.display_name + (f" ({p.dealer})" if p.dealer else ""))
        for p, password in people
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    print(f"\nRavensmoor Body Company, the demo firm: {url}\n")
    for row in rows:
        print("  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False)) + f"  {row[3]}")
    print("\nEverything here is invented. Stop it with Ctrl-C.", flush=True)


def counted(book: Book) -> list[str]:
    """What `check-book` says of a sound book: what it holds, and how many variants with every tool in order."""
    rows = [(what, str(number)) for what, number in summary(book)]
    try:
        answer = ask(prepare(book, {}, Donor()), Specification(), Tariff(book.lists[0].id if book.lists else ""))
        rows += [
            ("variants that can be built", str(answer.count)),
            ("with neither part nor approval", str(answer.outright)),
        ]
    except TooLarge:
        rows += [("variants", "not counted: the book branches too far")]
    width = max(len(what) for what, _ in rows)
    return [f"{what.ljust(width)}  {number}" for what, number in rows]


def text_of(file: Path) -> str:
    """The file's text. Raises Stop where it can't be read."""
    try:
        return file.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise Stop(f"{file} is not UTF-8 text (byte {error.start}). Save it as UTF-8.") from None
    except OSError as error:
        raise Stop(f"{file} can't be read ({error.strerror}). Give the path of a rule book.") from None


def asked_password() -> str:
    """A password from the keyboard, or from a pipe. Raises Stop for a short one."""
    password = getpass.getpass("Password: ") if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")
    if len(password) < SHORTEST_PASSWORD:
        raise Stop(f"A manager's password has at least {SHORTEST_PASSWORD} characters. Four unlike words keep well.")
    return password


def not_set_up(data: Path) -> str:
    """What to do with an empty desk."""
    return (
        f"Nothing is set up in {data}. Add the first manager and put a rule book in force:\n"
        f'  python -m app add-person NAME "Full Name" --data {data}\n'
        f"  python -m app publish-book FILE --by NAME --data {data}\n"
        "To look round first: python -m app demo"
    )


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


def heed_signals() -> None:
    """End cleanly when told to, also where a shell has started us with Ctrl-C switched off."""
    for told in (signal.SIGINT, signal.SIGTERM):
        signal.signal(told, _stop)


def _stop(*_: object) -> None:
    raise KeyboardInterrupt
