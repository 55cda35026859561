"""What several papers show alike: the head, the three answers, lines that say the same."""
