"""Mutation testing of `rules/`: small faults are put in one at a time, and the tests have to notice."""
