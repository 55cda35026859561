"""What is remembered stays within its room, and what was just worked out is given back whatever is forgotten."""

from __future__ import annotations

from rules.engine.memory import Memory


def test_when_there_is_no_more_room_all_is_forgotten_but_the_last() -> None:
    memory = Memory[str, int](2)
    assert [memory.keep(key, number) for number, key in enumerate("abc")] == [0, 1, 2]
    assert memory == {"c": 2}
    assert memory.get("a") is None
