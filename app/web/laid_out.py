"""The folder of current build sheets, written anew once the answer has gone out. Nobody waits for a drawing."""

from __future__ import annotations

from app.services.floor import laying_out
from app.web import here
from app.web.afterwards import afterwards


def lay_out_sheets(shell: int) -> None:
    """That of this shell; every other that is old is taken away with it."""
    config, asked = here.parts().config, (here.store(), here.me())
    now = here.now()
    afterwards(lambda: laying_out.lay_out(*asked, config.data, config.url, now, shell=shell))
