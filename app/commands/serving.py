"""`demo` and `serve`: a desk on the wire until it is told to end."""

from __future__ import annotations

import argparse
import gc
import logging
import signal
import socket
from collections.abc import Mapping, Sequence
from threading import Thread
from typing import Any
from urllib.parse import urlsplit

from app.commands.desk import claimed, not_set_up, opened
from app.commands.stop import Stop
from app.config import CHEAP, Config
from app.domain.asking.people import Person, Role
from app.factory import hasher_of, make_app
from app.services.books import publishing
from app.services.floor import laying_out, signing
from app.services.people import signing_in
from app.store import folder
from app.store.db import Store

log = logging.getLogger("bodywright")

HOST = "127.0.0.1"
THREADS = 8
#: The desk itself refuses above 1 MB, with a problem that says so; beyond this the connection is cut.
LARGEST_HEARD = 64_000_000
#: How seldom the collector of cycles looks (`gc.set_threshold`): an answer is thousands of small things without any.
SELDOM = (20_000, 20, 20)


def demo(given: argparse.Namespace) -> int:
    """Load the demo firm where the folder is empty, serve it, print each person's sign-in."""
    from demo.people import CODES, PEOPLE

    heed_signals()
    config = Config(given.data, url=f"http://{HOST}:{given.port}", clock=given.now, demo=True, cost=CHEAP)
    with listen(HOST, given.port, "make demo PORT={port}") as listening, claimed(given.data):
        if given.reset:
            folder.forget(given.data)
        store = opened(config)
        if not signing_in.anybody(store):
            print("Loading the demo firm …", flush=True)
            load_demo(config, store)
        print_sign_ins(config.url, PEOPLE, CODES)
        return run(config, store, listening)


def serve(given: argparse.Namespace) -> int:
    """Serve a desk that has a manager and a book."""
    config = Config(given.data, url=(given.url or f"http://{given.host}:{given.port}").rstrip("/"))
    refuse_in_the_clear(config, given.url)
    if not (given.data / folder.DATABASE).is_file():
        raise Stop(not_set_up(given.data))
    heed_signals()
    with listen(given.host, given.port, "--port {port}") as listening, claimed(given.data):
        store = opened(config)
        if not signing_in.anybody(store) or not publishing.published_books(store):
            raise Stop(not_set_up(given.data))
        print(f"Bodywright serves {given.data} at {config.url} — stop it with Ctrl-C", flush=True)
        Thread(target=_lay_out, args=(config, store), daemon=True).start()
        return run(config, store, listening, proxy=given.proxy)


def _lay_out(config: Config, store: Store) -> None:
    """What the workshop reads when the desk is down; it takes a while, and nobody waits for it."""
    desk = Person("desk", "", Role.LEAD)
    try:
        laying_out.lay_out(store, desk, config.data, config.url, config.clock())
    except Exception:
        log.exception("The folder of current build sheets could not be written.")
    finally:
        store.close()


def refuse_in_the_clear(config: Config, said: str | None) -> None:
    """Raises Stop for an address that is none, or that would carry passwords over the net unencrypted."""
    if urlsplit(config.url).scheme not in ("http", "https") or not urlsplit(config.url).hostname:
        raise Stop(f"{said} is no address. Write it as in --url https://desk.example")
    if not config.loopback and urlsplit(config.url).scheme != "https":
        raise Stop(
            f"People would send their passwords to {config.url} in the clear. "
            "Put a TLS proxy before it and give --url https://…"
        )


def load_demo(config: Config, store: Store) -> None:
    """The whole demo firm, or nothing of it."""
    from demo.loading import PIERS, load
    from demo.people import CODES, PEOPLE

    hasher, now = hasher_of(config.cost), config.clock()
    with store.writing():
        load(store, now, config.url)
        for person, password in PEOPLE:
            signing_in.add_person(store, hasher, person, password, now)
        for name, code in CODES.items():
            signing.set_code(store, hasher, PIERS, name, code, now)


def _leave_alone() -> None:
    """What is there by now stays: the collector need not look at it again with every few clicks."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*SELDOM)


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
    _leave_alone()
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
        other = elsewhere.format(port=port + 1 if port < 65535 else 8765)
        raise Stop(
            f"Port {port} on {host} can't be had ({error.strerror}). Stop what runs there, or take another: {other}"
        ) from None
    return listening


def print_sign_ins(url: str, people: Sequence[tuple[Person, str]], codes: Mapping[str, str]) -> None:
    """Where it is, and everybody's sign-in, in columns; what the workshop signs with."""
    rows = [("name", "password", "role", "who")]
    rows += [
        (p.name, password, p.role.value, p.display_name + (f" ({p.dealer})" if p.dealer else ""))
        for p, password in people
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    print(f"\nRavensmoor Body Company, the demo firm: {url}\n")
    for row in rows:
        print("  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False)) + f"  {row[3]}")
    print(f"\n  Codes to sign a stage with: {', '.join(f'{name} {code}' for name, code in codes.items())}")
    print("\nEverything here is invented. Stop it with Ctrl-C.", flush=True)


def heed_signals() -> None:
    """End cleanly when told to, also where a shell has started us with Ctrl-C switched off."""
    for told in (signal.SIGINT, signal.SIGTERM):
        signal.signal(told, _stop)


def _stop(*_: object) -> None:
    raise KeyboardInterrupt
