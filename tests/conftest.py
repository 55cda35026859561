"""Shared by all tests: how hypothesis draws, one running product, one browser; each started once per test process."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    # Imported where they are used: a test of the engine should not wait for a browser's library.
    from playwright.sync_api import Browser, Page

    from tests.support.product import Product

# `fixed`: the same examples every time, so that a change fails for its own reason. No deadline: two processes share two
# cores. `search`: new examples each time and many more; what it finds is kept as an example in the test.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "search", max_examples=2_000, deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "fixed"))


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Product]:
    """The demo firm, served for real, its clock fixed: `.url`, `.passwords`, `.sign_in(page, name)`."""
    from tests.support.product import running_product

    with running_product(tmp_path_factory.mktemp("demo") / "data") as product:
        yield product


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A headless Chromium."""
    from tests.support.browser import running_browser

    with running_browser() as browser:
        yield browser


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A new page with no cookies of other tests, in British English and London time."""
    context = browser.new_context(locale="en-GB", timezone_id="Europe/London")
    context.set_default_timeout(10_000)
    yield context.new_page()
    context.close()
