"""Slots and promises as they are kept; how well promises hold."""
