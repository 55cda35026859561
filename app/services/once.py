"""Doing what creates only once, however often it is asked for with the same idempotency key."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Once:
    """`key` as the client sent it, `person` who asks, `fingerprint` a hash of method, path and payload."""

    key: str
    person: str
    fingerprint: str
