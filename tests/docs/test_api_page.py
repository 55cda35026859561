"""The examples of docs/api.md, run in their order against the served demo; and every route stands on that page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import requests

from tests.support.product import Product

PAGE = Path(__file__).resolve().parents[2] / "docs" / "api.md"


@pytest.fixture(scope="module")
def text() -> str:
    return PAGE.read_text(encoding="utf-8")


def test_the_examples_run_in_their_order(server: Product, text: str) -> None:
    examples = re.findall(r"```python\n(.*?)```", text, re.S)
    assert len(examples) >= 5
    program = "\n".join(examples).replace("http://127.0.0.1:8765", server.url)
    names: dict[str, object] = {}
    exec(compile(program, str(PAGE), "exec"), names)
    desk = names["desk"]
    assert isinstance(desk, requests.Session)
    desk.close()


def test_every_route_stands_on_the_page(server: Product, text: str) -> None:
    document = requests.get(f"{server.url}/api/openapi.json", timeout=10).json()
    for path in document["paths"]:
        tail = re.sub(r"\{[^}]*\}", "{", path.removeprefix("/api/"))
        said = re.sub(r"\{[^}]*\}", "{", text)
        assert tail in said or tail.rpartition("{")[2].strip("/") in said, path
