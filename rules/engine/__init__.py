"""What can be built: rules as conditions, diagrams of them, and the full answer to what was chosen."""
