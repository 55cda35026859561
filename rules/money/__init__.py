"""What a shell costs: lines, discounts, tax, deposits and what part payments hold of it. Whole minor units."""
