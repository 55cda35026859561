"""Papers and drawings: laid out from what is already decided. No store, no service, no web; layers hold it."""
