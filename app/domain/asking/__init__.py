"""Who asks, and what he may: people, roles and their table, tokens and feeds."""
