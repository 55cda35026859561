"""Customers' parts: taken in, inspected, failed, and what then."""
