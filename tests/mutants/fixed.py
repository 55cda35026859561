"""A pytest plugin for runs on mutants: the same random choices every time, and no test that never ends.

Loaded with `-p tests.mutants.fixed`.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, settings

#: Seconds of processor that one test may take: many times what the slowest takes on the code as it is.
LONGEST = 60

#: What fails is not made smaller: that it fails is all that is asked.
settings.register_profile(
    "mutants",
    derandomize=True,
    database=None,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.generate],
)
settings.load_profile("mutants")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """Whoever runs longer ends as one that used up its time, which mutmut counts apart."""
    if not os.environ.get("MUTANT_UNDER_TEST", "").startswith("rules."):
        return (yield)
    signal.signal(signal.SIGVTALRM, lambda *_: os.kill(os.getpid(), signal.SIGXCPU))
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    try:
        return (yield)
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
