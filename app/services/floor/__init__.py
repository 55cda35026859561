"""Shells in the workshop: their sheets, kits, stages, welds, rework and concessions."""
