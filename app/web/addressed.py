"""Whom a sentence speaks to: the office reads what it has to do, a dealer whom he waits for and what he can do."""

from __future__ import annotations

from dataclasses import replace

from app.domain.errors import Fault
from app.web import here
from app.web.problems import sentence_of
from app.wording import knows

#: Behind the key of the sentence to the office.
TO_DEALER = "-to-dealer"

_OF_FAULTS = "fault."


def to_reader(key: str) -> str:
    """The key of the sentence for whoever reads: a dealer's own, where there is one."""
    own = f"{key}{TO_DEALER}"
    return own if here.me().dealer is not None and knows(own) else key


def fault_said(fault: Fault) -> str:
    """What is wrong, or lacks, or keeps something where it is, as a sentence to whoever reads it."""
    code = to_reader(f"{_OF_FAULTS}{fault.code}").removeprefix(_OF_FAULTS)
    return sentence_of(replace(fault, code=code), here.language())
