"""Shared by all tests: how hypothesis draws, one running product, one browser; each started once per test process."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    # Imported where they are used: a test of the engine should not wait for a browser's library.
    from playwright.sync_api import Browser, BrowserContext, Page

    from tests.support.product import Product

# `fixed`: the same examples every time, so that a change fails for its own reason. No deadline: two processes share two
# cores. `search`: new examples each time and many more; what it finds is kept as an example in the test.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "search", max_examples=2_000, deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "fixed"))


@pytest.fixture(scope="session")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a loaded demo, made once for all test processes. To be copied, not to be changed."""
    from tests.support.product import loaded_once

    own = tmp_path_factory.getbasetemp()
    return loaded_once(own.parent if "PYTEST_XDIST_WORKER" in os.environ else own)


@pytest.fixture(scope="session")
def server(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Product]:
    """The demo firm, served for real, its clock fixed: `.url`, `.passwords`, `.sign_in(page, name)`."""
    from tests.support.product import running_product

    with running_product(tmp_path_factory.mktemp("demo") / "data", loaded) as product:
        yield product


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A headless Chromium."""
    from tests.support.browser import running_browser

    with running_browser() as browser:
        yield browser


@pytest.fixture(scope="session")
def one_context(browser: Browser) -> Iterator[BrowserContext]:
    """British English in London time. One for all tests: it keeps the page's modules, as a user's browser does."""
    with browser.new_context(locale="en-GB", timezone_id="Europe/London", reduced_motion="reduce") as context:
        context.set_default_timeout(10_000)
        yield context


@pytest.fixture
def page(one_context: BrowserContext) -> Iterator[Page]:
    """A new page with nothing that another test left: no cookies, nothing stored."""
    yield one_context.new_page()
    visited = {"/".join(page.url.split("/")[:3]) for page in one_context.pages}
    for page in one_context.pages:
        page.close()
    forget(one_context, visited)


def forget(context: BrowserContext, origins: set[str]) -> None:
    """Throw away all that was stored there: cookies, and what the page keeps for itself."""
    context.clear_cookies()
    page = context.new_page()
    session = context.new_cdp_session(page)
    for origin in origins:
        session.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "local_storage,indexeddb"})
    page.close()
