"""Documents as UBL 2.1 (OASIS), within the rules of EN 16931. Figures are written as they are handed in."""
