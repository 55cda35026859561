"""A shell on its way out: packed, papered, recorded as built, gone."""
