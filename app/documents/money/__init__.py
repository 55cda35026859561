"""Documents about money, on paper and in open formats."""
