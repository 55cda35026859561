"""Frozen types of the engine and the domain as JSON text, and back to equal values.

Only what such types are made of: dataclasses, enums, decimals, moments, days, tuples, mappings by text, plain values.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from app.store.texts import json_text

T = TypeVar("T")


def frozen_text(value: Any) -> str:
    """The value as text; equal values give equal texts."""
    return json_text(_plain(value))


def thawed(kind: type[T], text: str) -> T:
    """The value of that type whose text it is."""
    value: T = _made(kind, json.loads(text))
    return value


def _plain(value: Any) -> Any:
    if is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {key: _plain(part) for key, part in value.items()}
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, Enum):
        return value.value
    return str(value) if isinstance(value, Decimal | date) else value


def _made(kind: Any, plain: Any) -> Any:
    origin, parts = get_origin(kind), get_args(kind)
    if origin in (Union, UnionType):
        return None if plain is None else _made(next(part for part in parts if part is not NoneType), plain)
    if origin is tuple:
        return tuple(_made(parts[0], part) for part in plain)
    if origin is not None:
        return {key: _made(parts[1], part) for key, part in plain.items()}
    if is_dataclass(kind) and isinstance(kind, type):
        hints = _hints(kind)
        return kind(**{name: _made(hints[name], part) for name, part in plain.items()})
    return _scalar(kind, plain)


def _scalar(kind: Any, plain: Any) -> Any:
    if issubclass(kind, datetime | date):
        return kind.fromisoformat(plain)
    return kind(plain) if issubclass(kind, Enum | Decimal) else plain


_hints = cache(get_type_hints)
