"""What the workshop does to one shell: its work, its kit, and what may still change on it."""
