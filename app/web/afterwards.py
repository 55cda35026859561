"""What is done once the answer has gone out: the reader doesn't wait for it, and never hears of it."""

from __future__ import annotations

import logging
from collections.abc import Callable

from flask import Response, after_this_request

log = logging.getLogger("bodywright")


def afterwards(deed: Callable[[], object]) -> None:
    """Do it when this request's answer has been sent, in the thread that sent it. What goes wrong is logged."""

    def do() -> None:
        try:
            deed()
        except Exception:
            log.exception("What was to be done after the answer failed.")

    @after_this_request
    def _(response: Response) -> Response:
        response.call_on_close(do)
        return response
