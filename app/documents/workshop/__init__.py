"""What the workshop builds, measures and hangs up by."""
