"""Puts the desk together. The only place where the parts of the service meet; it decides nothing else."""

from __future__ import annotations

from argon2 import PasswordHasher
from flask import Flask
from flask.json.provider import DefaultJSONProvider

from app.config import Config, PasswordCost
from app.store.db import Store
from app.web import api, gate, pages, problems
from app.web.here import Parts


class Json(DefaultJSONProvider):
    """Fields in the order in which they are written, letters as letters."""

    sort_keys = False
    ensure_ascii = False


def make_app(config: Config, store: Store | None = None) -> Flask:
    """The desk as a WSGI application; `store` where one is open already."""
    app = Flask("app", static_folder=None)
    app.config["MAX_CONTENT_LENGTH"] = config.largest_body
    app.url_map.strict_slashes = False
    app.url_map.merge_slashes = False
    app.json = Json(app)
    app.extensions["desk"] = parts_of(config, store or open_store(config))
    gate.register(app)
    problems.register(app)
    api.register(app)
    pages.register(app)
    return app


def parts_of(config: Config, store: Store) -> Parts:
    """What every request may ask for."""
    return Parts(config, store, hasher_of(config.cost))


def open_store(config: Config) -> Store:
    """The store in the data folder, its tables brought up to date."""
    return Store(config.data / "desk.sqlite3")


def hasher_of(cost: PasswordCost) -> PasswordHasher:
    """argon2id at this cost."""
    return PasswordHasher(time_cost=cost.time, memory_cost=cost.memory_kib, parallelism=cost.lanes)
