"""A shell leaves: how it is packed, what must be so, what its papers say for good."""
