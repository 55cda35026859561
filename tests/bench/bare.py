"""The yardsticks of an answer: routes that give back bytes they were handed, served as ours is.

Each in a process of its own, under the same server with as many threads: talking to another process costs all the same.
"""

from __future__ import annotations

import json
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from flask import Flask, Response, request
from waitress.server import create_server

from app.clock import fixed
from app.commands.serving import THREADS
from app.config import Config
from app.domain.asking.people import Action, Sort
from app.factory import make_app
from app.web.guard import does
from app.web.resources.asking import blp
from app.web.schemas.asking import AnswersIn

#: Where bytes are handed in with PUT; POST with `X-Place` gives back those of that place, counted from 0.
KEEP, GIVE = "/kept", "/api/given"


def bare() -> Flask:
    """Reads the JSON, and no more."""
    app, kept = _keeping(Flask("bare"))

    @app.post(GIVE)
    def answer() -> Response:
        json.loads(request.get_data())
        return kept()

    return app


def behind_the_gate(data: Path, url: str, now: str) -> Flask:
    """The desk itself with a route that only a person signed in gets through to, whose body the schema reads."""
    app, kept = _keeping(make_app(Config(data, url, clock=fixed(now))))

    @app.post(GIVE)
    @does(Action.ASK, Sort.BOOK)
    @blp.arguments(AnswersIn)
    def answer(body: dict[str, Any]) -> Response:
        return kept()

    return app


@contextmanager
def served(make: Callable[..., Flask], *given: Any) -> Iterator[str]:
    """Its address, without a slash at the end."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        process = get_context("spawn").Process(target=_serve, args=(listening, make, *given), daemon=True)
        process.start()
        try:
            yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        finally:
            process.terminate()
            process.join()


def _serve(listening: socket.socket, make: Callable[..., Flask], *given: Any) -> None:
    create_server(make(*given), sockets=[listening], threads=THREADS, ident=None).run()


def _keeping(app: Flask) -> tuple[Flask, Callable[[], Response]]:
    kept = list[bytes]()

    @app.put(KEEP)
    def keep() -> str:
        kept.append(request.get_data())
        return ""

    return app, lambda: Response(kept[int(request.headers["X-Place"])], mimetype="application/json")
