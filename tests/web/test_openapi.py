"""The document of the interface is valid (openapi-spec-validator, OpenAPI 3.1) and names every route."""

from __future__ import annotations

from typing import Any

import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator, validate

from tests.web.conftest import Desk
from tests.web.test_permissions import declared


@pytest.fixture
def document(desk: Desk) -> dict[str, Any]:
    return dict(desk.stranger().get("/api/openapi.json").get_json())


def test_it_is_a_valid_openapi_3_1_document(document: dict[str, Any]) -> None:
    assert document["openapi"] == "3.1.0"
    validate(document, cls=OpenAPIV31SpecValidator)


def test_it_names_every_route_and_every_route_has_its_problems(desk: Desk, document: dict[str, Any]) -> None:
    operations = [
        (path, method) for path, item in document["paths"].items() for method in item if method != "parameters"
    ]
    assert len(operations) == len(list(declared(desk)))
    for path, method in operations:
        default = document["paths"][path][method]["responses"]["default"]
        assert default == {"$ref": "#/components/responses/Problem"}, path
    problem = document["components"]["responses"]["Problem"]["content"]
    assert list(problem) == ["application/problem+json"]


def test_edits_and_creations_say_which_headers_they_need(document: dict[str, Any]) -> None:
    issue = document["paths"]["/api/quotations/{number}/revisions/{letter}/issue"]["post"]
    needed = {parameter["name"] for parameter in issue["parameters"] if parameter.get("required")}
    assert needed >= {"If-Match", "Idempotency-Key", "X-Forgery-Token"}
    assert issue["security"] == [{"signIn": []}]
