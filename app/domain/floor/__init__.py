"""A shell in the shop: gates, sheets, kit, welds, rework, what stops it."""
