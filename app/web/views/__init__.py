"""Things as plain data for the schemas. Shaping only: nothing is worked out here."""
