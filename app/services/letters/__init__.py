"""Letters to customers: their texts, and that one was sent."""
