"""The locks: whole, hashed, and free of any address, so that they work behind any mirror."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
LOCKS = ["run", "test", "mutants", "node", "schemas"]


def pins(lock: str) -> dict[str, str]:
    """Package → version of a lock."""
    text = (TOP / ".ci" / "requirements" / f"{lock}.txt").read_text()
    return dict(re.findall(r"^([a-z0-9._-]+)==(\S+)", text, flags=re.MULTILINE))


def asked_for(lock: str) -> set[str]:
    """The packages that a person wrote down."""
    text = (TOP / ".ci" / "requirements" / f"{lock}.in").read_text()
    return set(re.findall(r"^([a-z0-9][a-z0-9._-]*)", text, flags=re.MULTILINE))


@pytest.mark.parametrize("lock", LOCKS)
def test_every_package_asked_for_is_locked(lock: str) -> None:
    assert asked_for(lock)
    assert asked_for(lock) <= set(pins(lock))


@pytest.mark.parametrize("lock", LOCKS)
def test_every_locked_package_has_a_hash(lock: str) -> None:
    text = (TOP / ".ci" / "requirements" / f"{lock}.txt").read_text()
    entries = re.split(r"\n(?=[a-z0-9])", text)
    assert [entry.split()[0] for entry in entries if "--hash=sha256:" not in entry] == []


def test_the_tests_run_on_the_very_versions_that_the_product_runs_on() -> None:
    assert pins("run").items() <= pins("test").items() <= pins("mutants").items()


def test_no_tracked_lock_or_setting_names_a_registry() -> None:
    """A registry's address would bind everybody to it; who pays for a package (`funding`) may be named."""
    told = subprocess.run(
        ["git", "grep", "-nE", r"\"resolved\"|(index-url|registry) *=|(pypi|npmjs|pythonhosted)\.org", "--", "*"],
        cwd=TOP,
        capture_output=True,
        text=True,
        check=False,
    )
    assert [line for line in told.stdout.splitlines() if not line.startswith("tests/setup/test_locks.py")] == []


def test_every_package_of_the_pages_is_locked_with_its_checksum() -> None:
    wanted = json.loads((TOP / "frontend" / "package.json").read_text())["dependencies"]
    locked = json.loads((TOP / "frontend" / "package-lock.json").read_text())["packages"]
    assert {name: locked[f"node_modules/{name}"]["version"] for name in wanted} == wanted
    assert all("integrity" in entry for path, entry in locked.items() if path)
