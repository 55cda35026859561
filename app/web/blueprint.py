"""The blueprint that every resource uses: bodies come from the gate, and what is wrong with one is said all at once."""

from __future__ import annotations

from typing import Any, NoReturn

from flask import Request
from flask_smorest import Blueprint as SmorestBlueprint
from marshmallow import Schema, ValidationError
from webargs import core
from webargs.flaskparser import FlaskParser

from app.domain.errors import BadInput
from app.web import here
from app.web.fields import LARGEST_KEY, faults_of

#: In an address, as in f"/approvals/<{KEY}:approval>": the number by which a thing of the desk is asked for.
KEY = f"int(max={LARGEST_KEY})"


class Parser(FlaskParser):
    """Takes the body that the gate has read, and turns faults into a refusal."""

    def _raw_load_json(self, req: Request) -> Any:
        body = here.body()
        return core.missing if body is None else body

    def handle_error(self, error: ValidationError, req: Any, schema: Any, **kwargs: Any) -> NoReturn:
        raise BadInput(faults_of(error))


class Blueprint(SmorestBlueprint):
    ARGUMENTS_PARSER = Parser()

    def arguments(self, schema: type[Schema], **kwargs: Any) -> Any:
        """The library's own, but with the schema made once and not for every request."""
        return super().arguments(schema(), **kwargs)


def resource(name: str, about: str) -> Blueprint:
    """The blueprint of one resource under /api."""
    return Blueprint(name, name, url_prefix="/api", description=about)
