"""The yardstick of an answer: a Flask route that reads the JSON and gives back bytes it was handed, served as ours is.

In a process of its own, under the same server with as many threads: talking to another process costs both the same.
"""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import get_context

from flask import Flask, request
from waitress.server import create_server

from app.commands.serving import THREADS


@contextmanager
def bare_route() -> Iterator[str]:
    """Its address. PUT: bytes to keep; POST with `X-Place`: those of that place, counted from 0."""
    listening = socket.create_server(("127.0.0.1", 0))
    process = get_context("spawn").Process(target=_serve, args=(listening,), daemon=True)
    process.start()
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/answers"
    finally:
        process.terminate()
        process.join()
        listening.close()


def _serve(listening: socket.socket) -> None:
    create_server(_app(), sockets=[listening], threads=THREADS, ident=None).run()


def _app() -> Flask:
    app, kept = Flask("bare"), list[bytes]()

    @app.put("/answers")
    def keep() -> str:
        kept.append(request.get_data())
        return ""

    @app.post("/answers")
    def answer() -> tuple[bytes, dict[str, str]]:
        json.loads(request.get_data())
        return kept[int(request.headers["X-Place"])], {"Content-Type": "application/json"}

    return app
