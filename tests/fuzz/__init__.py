"""Looks for a question that the engine answers otherwise than two oracles do (`make fuzz`)."""
