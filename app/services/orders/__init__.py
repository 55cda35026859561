"""Orders: made, confirmed, changed, cancelled, followed."""
