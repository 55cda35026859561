"""The order confirmation and the change note."""
