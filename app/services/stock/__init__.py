"""Shells that wait for a customer: built, matched, held, taken."""
