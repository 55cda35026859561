"""All resources put together, and the OpenAPI 3.1 document that says what they do."""

from __future__ import annotations

from typing import Any

from apispec.ext.marshmallow import MarshmallowPlugin
from flask import Flask, Response, current_app
from flask_smorest import Api as SmorestApi
from marshmallow import INCLUDE, Schema, fields

from app.domain.asking.token import GRANTS, Scope
from app.web import problems
from app.web.resources import RESOURCES

VERSION = "1"


class ProblemOut(Schema):
    """RFC 9457, with how to mend it; `errors`: path of a field → what is wrong there, all at once."""

    type = fields.String(required=True)
    title = fields.String(required=True)
    status = fields.Integer(required=True)
    detail = fields.String(required=True)
    repair = fields.String(required=True)
    errors = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))

    class Meta:
        unknown = INCLUDE


class Api(SmorestApi):
    """Errors are left to `problems`, which sees them all."""

    ERROR_SCHEMA = ProblemOut

    def _register_error_handlers(self) -> None:
        """Nothing: `problems.register` did it."""


def register(app: Flask) -> None:
    """Put the resources and their document under /api."""
    app.config |= {"API_TITLE": "Bodywright", "API_VERSION": VERSION, "OPENAPI_VERSION": "3.1.0"}
    api = Api(app, spec_kwargs={"marshmallow_plugin": MarshmallowPlugin(schema_name_resolver=_name)})
    for blueprint in RESOURCES:
        api.register_blueprint(blueprint)
    document = finished(api.spec.to_dict(), app)
    app.add_url_rule("/api/openapi.json", "openapi", lambda: _document(document))


def _document(document: dict[str, Any]) -> Response:
    response = current_app.make_response(current_app.json.dumps(document))
    response.content_type = "application/json"
    response.headers["Cache-Control"] = "no-cache"
    return response


def _name(schema: Any) -> str:
    name = schema.__name__ if isinstance(schema, type) else type(schema).__name__
    return f"{name}Partial" if not isinstance(schema, type) and schema.partial else name


def finished(document: dict[str, Any], app: Flask) -> dict[str, Any]:
    """The library's document, made true: problems have their media type, changes their headers, sign-in its cookie."""
    document["info"]["description"] = (
        "The order desk's own interface. Every error is a problem that says how to mend it."
    )
    schemes = document.setdefault("components", {}).setdefault("securitySchemes", {})
    schemes["signIn"] = {"type": "apiKey", "in": "cookie", "name": "desk"}
    schemes["program"] = {
        "type": "http",
        "scheme": "bearer",
        "description": "A dealer's program, by its token's scopes",
    }
    for path, operations in document["paths"].items():
        for method, operation in operations.items():
            if isinstance(operation, dict):
                _finish(operation, method, _view(app, path, method))
    _name_problems(document)
    return document


def _view(app: Flask, path: str, method: str) -> Any:
    for rule in app.url_map.iter_rules():
        if _plain_path(rule.rule) == path and method.upper() in (rule.methods or ()):
            return app.view_functions[rule.endpoint]
    raise LookupError(path)


def _plain_path(rule: str) -> str:
    return "".join(
        f"{{{part.split('>')[0].split(':')[-1]}}}{part.split('>')[1]}" if ">" in part else part
        for part in rule.split("<")
    )


def _finish(operation: dict[str, Any], method: str, view: Any) -> None:
    parameters = operation.setdefault("parameters", [])
    if getattr(view, "edits", False):
        parameters.append(_header("If-Match", "The ETag of what was read", '"1"'))
    if getattr(view, "creates", False):
        parameters.append(
            _header("Idempotency-Key", "8 to 200 printable characters, fresh for each new thing", "a-fresh-random-text")
        )
    declared = getattr(view, "does", "anybody")
    if declared != "anybody":
        operation["security"] = [{"signIn": []}, *_for_programs(declared)]
        if method in ("post", "put", "patch", "delete"):
            parameters.append(_header("X-Forgery-Token", "From GET /api/session", "the-token"))
    for status in _refusals(method, view, declared, operation):
        operation["responses"].setdefault(str(status), {"$ref": "#/components/responses/Problem"})
    operation["responses"]["default"] = {"$ref": "#/components/responses/Problem"}


def _for_programs(declared: Any) -> list[dict[str, list[str]]]:
    """Which scopes of a token let a program do this, if any do."""
    scopes = [scope.value for scope in Scope if declared in GRANTS[scope]]
    return [{"program": [scope]} for scope in scopes]


def _refusals(method: str, view: Any, declared: Any, operation: dict[str, Any]) -> list[int]:
    statuses = [429] if declared == "anybody" else [401, 403]
    statuses += [400, 404, 413, 415, 422] if "requestBody" in operation else [404, 422]
    statuses += [412, 428, 409] if getattr(view, "edits", False) else []
    statuses += [400, 409] if getattr(view, "creates", False) else []
    return sorted(set(statuses))


def _header(name: str, about: str, example: str) -> dict[str, Any]:
    return {
        "name": name,
        "in": "header",
        "required": True,
        "description": about,
        "schema": {"type": "string"},
        "example": example,
    }


def _name_problems(document: dict[str, Any]) -> None:
    content = {problems.MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/ProblemOut"}}}
    responses = document["components"].setdefault("responses", {})
    for name, response in responses.items():
        if "ProblemOut" in str(response):
            responses[name] = {**response, "content": content}
    responses["Problem"] = {"description": "What is wrong and how to mend it", "content": content}
