"""Enquiries and their quotations: drafted, approved, issued, answered, and put on paper."""
