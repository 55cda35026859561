"""A specification as the text that is stored, and back: option → choice and who gave it."""

from __future__ import annotations

import json

from app.store.texts import json_text
from rules.specification import Origin, Specification, Taken


def specification_text(specification: Specification) -> str:
    return json_text({option: [taken.choice, taken.origin.value] for option, taken in specification.answers.items()})


def specification(text: str) -> Specification:
    answers = json.loads(text)
    return Specification({option: Taken(choice, Origin(origin)) for option, (choice, origin) in answers.items()})
