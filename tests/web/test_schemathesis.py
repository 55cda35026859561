"""Requests made up from the interface's own document (schemathesis) meet nothing but what the document says.

Left out: signing in and out, which would end the run's own sign-in; `missing_required_header`, which expects 406 where
RFC 6585 says 428; `positive_data_acceptance`, because a well-formed If-Match need not be the current one.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import requests

from tests.support.product import Product

#: (seed, phases, examples for each operation). `make fuzz-api` sets DEEP: every header left out and every limit
#: overstepped (`coverage`) takes minutes.
FEW = [(1, "examples,fuzzing", 1)]
MANY = [(1, "examples,coverage,fuzzing", 4), *((seed, "fuzzing", 30) for seed in range(2, 8))]
RUNS = MANY if os.environ.get("DEEP") else FEW

LEFT_OUT = "missing_required_header,positive_data_acceptance,ignored_auth"


@pytest.fixture(scope="module")
def signed_in(server: Product) -> tuple[str, str]:
    """The cookie and the forgery token of a manager, who may do the most."""
    who = {"name": "piers", "password": server.passwords["piers"]}
    answer = requests.post(f"{server.url}/api/session", json=who, timeout=20)
    return f"desk={answer.cookies['desk']}", str(answer.json()["forgery_token"])


@pytest.fixture(scope="module")
def document(server: Product, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The document without its security: the run sends one good cookie with everything, and tries none without."""
    said = requests.get(f"{server.url}/api/openapi.json", timeout=20).json()
    for item in said["paths"].values():
        for operation in item.values():
            if isinstance(operation, dict):
                operation.pop("security", None)
    file = tmp_path_factory.mktemp("schemathesis") / "openapi.json"
    file.write_text(json.dumps(said))
    return file


@pytest.mark.parametrize(("seed", "phases", "examples"), RUNS)
def test_made_up_requests_meet_what_the_document_says(
    server: Product, document: Path, signed_in: tuple[str, str], seed: int, phases: str, examples: int
) -> None:
    cookie, token = signed_in
    command = [sys.executable, "-m", "schemathesis.cli", "run", str(document), "--url", server.url]
    command += ["-H", f"Cookie: {cookie}", "-H", f"X-Forgery-Token: {token}", "--exclude-path", "/api/session"]
    command += [
        "--seed",
        str(seed),
        "-n",
        str(examples),
        "--phases",
        phases,
        "--exclude-checks",
        LEFT_OUT,
        "--no-color",
    ]
    ran = subprocess.run(command, cwd=document.parent, capture_output=True, text=True, timeout=1200)
    assert ran.returncode == 0, ran.stdout[-6000:] + ran.stderr[-2000:]
    assert " passed" in ran.stdout
