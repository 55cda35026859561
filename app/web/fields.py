"""The fields that the schemas are made of. What is wrong with one is a code with facts; the sentence is made later.

`Amount` and `Priced` are the only ways for money to get through a schema, and they give nothing while prices are
hidden. (The full answer goes without one; `answering` does the same for it.)
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, validate

from app.domain.errors import Fault
from app.web import here
from rules.money.countries import COUNTRIES

#: The largest number by which a thing of the desk is asked for.
LARGEST_KEY = 999_999_999

_MARK = "\x1f"
# The library fills its messages as format strings: braces of ours go through it in disguise.
_WITHOUT_BRACES = str.maketrans("{}", "\x1e\x1d")
_WITH_BRACES = str.maketrans("\x1e\x1d", "{}")


def code(name: str, **facts: Any) -> str:
    """A message that carries a Fault's code and facts through the library."""
    return f"{_MARK}{name}{_MARK}{json.dumps(facts)}".translate(_WITHOUT_BRACES)


def faults_of(error: ValidationError) -> list[Fault]:
    """All that is wrong, each with its path as in `lines.0.quantity`."""
    messages = error.messages if isinstance(error.messages, dict) else {"_schema": error.messages}
    return list(_faults(messages, ()))


def _faults(messages: Any, path: tuple[str, ...]) -> Iterator[Fault]:
    if isinstance(messages, Mapping):
        for key, inner in messages.items():
            yield from _faults(
                inner, path if key in ("_schema", "value", "key", "json", "query") else (*path, str(key))
            )
        return
    for message in messages if isinstance(messages, list) else [messages]:
        yield _fault(str(message), ".".join(path))


def _fault(message: str, path: str) -> Fault:
    if not message.startswith(_MARK):
        return Fault(path, "invalid")
    _, name, facts = message.translate(_WITH_BRACES).split(_MARK)
    return Fault(path, name, json.loads(facts))


_COMMON = {"required": code("required"), "null": code("null"), "validator_failed": code("invalid")}


class Base(Schema):
    """Unknown fields are refused, fields stand in written order."""

    error_messages = {"unknown": code("unknown-field"), "type": code("not-an-object")}

    class Meta:
        unknown = RAISE


class Text(fields.String):
    """A text of at most `most` characters."""

    default_error_messages = {
        **_COMMON,
        "invalid": code("not-text"),
        "invalid_utf8": code("not-readable"),
    }

    def __init__(self, *, most: int = 200, least: int = 0, **kwargs: Any) -> None:
        limit = [validate.Length(max=most, error=code("too-long", most=most))]
        limit += [validate.Length(min=least, error=code("too-short", least=least))] if least else []
        super().__init__(validate=limit, **kwargs)


class Line(Text):
    """A text on one line, as a name: what was pasted with it, spaces around it or a line's end, is left out."""

    def _deserialize(self, value: Any, *args: Any, **kwargs: Any) -> Any:
        text = super()._deserialize(value, *args, **kwargs)
        return " ".join(text.split()) if isinstance(text, str) else text


class Millimetres(Text):
    """A length as a caliper shows it: a text of millimetres with up to two decimals, like 1.4."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(most=20, **kwargs)
        self.validators.append(validate.Regexp(r"^\d{1,5}(\.\d{1,2})?$", error=code("not-millimetres")))


class Whole(fields.Integer):
    """A whole number; 84.0 is one, true and "84" are not."""

    default_error_messages = {
        **_COMMON,
        "invalid": code("not-a-whole-number"),
        "too_large": code("not-a-whole-number"),
    }

    def __init__(self, *, least: int, most: int, **kwargs: Any) -> None:
        limits = [
            validate.Range(min=least, error=code("too-small", least=least)),
            validate.Range(max=most, error=code("too-large", most=most)),
        ]
        super().__init__(validate=limits, **kwargs)

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, bool) or not isinstance(value, int | float) or value != int(value):
            raise self.make_error("invalid", input=value)
        return int(value)


class QueryWhole(Whole):
    """A whole number in the address, where everything is text."""

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if not (isinstance(value, str) and value.isascii() and value.isdigit() and len(value) < 10):
            raise self.make_error("invalid", input=value)
        return int(value)


class Flag(fields.Boolean):
    """true or false, nothing that merely looks like it."""

    default_error_messages = {**_COMMON, "invalid": code("not-yes-or-no")}

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, bool):
            raise self.make_error("invalid", input=value)
        return value


class Day(fields.Date):
    """A day as ISO 8601 writes it."""

    default_error_messages = {
        **_COMMON,
        "invalid": code("not-a-date"),
        "format": code("not-a-date"),
    }

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, str) or len(value) != len("2026-11-25"):
            raise self.make_error("invalid", input=value, obj_type="date")
        return super()._deserialize(value, attr, data, **kwargs)


class Moment(fields.AwareDateTime):
    """A moment as RFC 3339 writes it, with its zone."""

    default_error_messages = {
        **_COMMON,
        "invalid": code("not-a-moment"),
        "invalid_awareness": code("not-a-moment"),
        "format": code("not-a-moment"),
    }

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(format="iso", **kwargs)

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, str) or len(value) > 40:
            raise self.make_error("invalid", input=value, obj_type="datetime")
        return super()._deserialize(value, attr, data, **kwargs)


class OneOf(Text):
    """One word of a fixed few."""

    def __init__(self, choices: tuple[str, ...], **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.validators = [validate.OneOf(choices, error=code("not-one-of", choices=list(choices)))]


class Country(Text):
    """A country of the one list; `blank` lets the empty text say "not known"."""

    def __init__(self, *, blank: bool = False, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        known = [*([""] if blank else []), *sorted(COUNTRIES)]
        self.validators = [validate.OneOf(known, error=code("unknown-country"))]


class Many(fields.List):
    """At most `most` of something."""

    default_error_messages = {**_COMMON, "invalid": code("not-a-list")}

    def __init__(self, inner: Any, *, most: int = 100, **kwargs: Any) -> None:
        super().__init__(inner, validate=validate.Length(max=most, error=code("too-long", most=most)), **kwargs)


class By(fields.Dict):
    """Something under each name: at most `most` names."""

    default_error_messages = {**_COMMON, "invalid": code("not-an-object")}

    def __init__(self, inner: Any, *, most: int = 500, **kwargs: Any) -> None:
        limit = validate.Length(max=most, error=code("too-long", most=most))
        super().__init__(keys=Text(most=80), values=inner, validate=limit, **kwargs)


class Of(fields.Nested):
    """An object of another schema."""

    default_error_messages = {**_COMMON, "type": code("not-an-object")}


class Words(fields.Dict):
    """A text in every language of the book: {"en": "…", "de": "…"}."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(keys=fields.String(), values=fields.String(), **kwargs)


class Amount(fields.Integer):
    """Whole minor units of the currency beside it; null while prices are hidden."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("allow_none", True)
        super().__init__(**kwargs)

    def _serialize(self, value: Any, attr: Any, obj: Any, **kwargs: Any) -> Any:
        return super()._serialize(value, attr, obj, **kwargs) if here.prices_visible() else None


class Priced(fields.Nested):
    """An object that is about money throughout; null while prices are hidden."""

    def __init__(self, nested: Any, **kwargs: Any) -> None:
        kwargs.setdefault("allow_none", True)
        super().__init__(nested, **kwargs)

    def _serialize(self, nested_obj: Any, attr: Any, obj: Any, **kwargs: Any) -> Any:  # type: ignore[override]
        return super()._serialize(nested_obj, attr, obj, **kwargs) if here.prices_visible() else None
