"""The donor car: its identity number, what it had as it was built, what of it is kept."""
