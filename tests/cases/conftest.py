"""The people whom the cases put at the desk."""

from __future__ import annotations

import pytest

from tests.cases.desk import Desk
from tests.support.product import Product


@pytest.fixture(scope="session")
def clerk(server: Product) -> Desk:
    return Desk(server.url, "imogen", server.passwords["imogen"])
