"""Orders: made, confirmed, changed by note, followed by a revision that is still out."""
