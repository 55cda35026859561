"""Who acts: people, dealers and their programs, how they come in and on which terms."""
