"""The things of the desk and what may be done with them: plain frozen types and pure decisions, no I/O, no clock."""
