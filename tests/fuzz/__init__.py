"""Looks for a question that the engine answers otherwise than two oracles do (`make fuzz`). Tests run it for a few books."""
