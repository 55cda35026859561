"""What can be proved of a rule book before anybody asks it: dead choices, idle rules, contradictions and more."""

from rules.proof.finding import (
    Counted,
    Dead,
    Idle,
    NotLost,
    Price,
    Proof,
    Silent,
    StandardShell,
    Toolless,
    Unpriced,
)
from rules.proof.prove import prove

__all__ = [
    "Counted",
    "Dead",
    "Idle",
    "NotLost",
    "Price",
    "Proof",
    "Silent",
    "StandardShell",
    "Toolless",
    "Unpriced",
    "prove",
]
