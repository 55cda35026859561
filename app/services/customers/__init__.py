"""Customers: known, merged, handed what is held on them, erased."""
