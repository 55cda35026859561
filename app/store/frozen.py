"""Frozen types of the engine and the domain as JSON text, and back to equal values.

Only what such types are made of: dataclasses, enums, decimals, moments, days, tuples, mappings by text, plain values.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from app.store.texts import json_text

T = TypeVar("T")

_Maker = Callable[[Any], Any]


def frozen_text(value: Any) -> str:
    """The value as text; equal values give equal texts."""
    return json_text(_plain(value))


def thawed(kind: type[T], text: str) -> T:
    """The value of that type whose text it is."""
    making: Any = kind
    value: T = _maker(making)(json.loads(text))
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


@cache
def _maker(kind: Any) -> _Maker:
    """How a value of that type is made of plain data: worked out once, for there are thousands of such values."""
    origin, parts = get_origin(kind), get_args(kind)
    if origin in (Union, UnionType):
        return _perhaps(_maker(next(part for part in parts if part is not NoneType)))
    if origin is tuple:
        return _several(_maker(parts[0]))
    if origin is not None:
        return _by_name(_maker(parts[1]))
    return _whole(kind) if is_dataclass(kind) else _scalar(kind)


def _same(plain: Any) -> Any:
    return plain


def _perhaps(make: _Maker) -> _Maker:
    return make if make is _same else lambda plain: None if plain is None else make(plain)


def _several(make: _Maker) -> _Maker:
    return tuple if make is _same else lambda plain: tuple([make(part) for part in plain])


def _by_name(make: _Maker) -> _Maker:
    return _same if make is _same else lambda plain: {key: make(part) for key, part in plain.items()}


def _whole(kind: Any) -> _Maker:
    """Its fields are looked up when the first is made: a type may hold its own like."""
    makers: dict[str, _Maker] = {}

    def make(plain: Mapping[str, Any]) -> Any:
        if not makers:
            makers.update({name: _maker(hint) for name, hint in get_type_hints(kind).items()})
        return kind(**{name: makers[name](part) for name, part in plain.items()})

    return make


def _scalar(kind: Any) -> _Maker:
    if issubclass(kind, datetime | date):
        made: _Maker = kind.fromisoformat
        return made
    return kind if issubclass(kind, Enum | Decimal) else _same
