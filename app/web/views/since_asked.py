"""What was measured after a concession was asked for, as plain data, with its sentences in the reader's language."""

from __future__ import annotations

from typing import Any

from app.documents.workshop.subjects_said import SubjectsSaid
from app.services.inspection.inspecting import Inspection
from app.web import here


def since_view(looked: Inspection | None, concession: int) -> list[dict[str, Any]]:
    """Each finding that a yes wouldn't cover. None looked at: nothing waits for an answer."""
    since = {} if looked is None else looked.since.get(concession, {})
    if looked is None or not since:
        return []
    said = SubjectsSaid(looked.work, looked.found.gated.frozen.settled, here.voice(looked.book))
    found = ((name, looked.finding(name), then) for name, then in since.items())
    return [
        {"finding": name, "of": said.which(now), "limit": said.should_be(now), "says": said.since(now, then)}
        for name, now, then in found
    ]
