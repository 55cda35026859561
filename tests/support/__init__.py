"""What several tests share: the real product running, a real browser."""
