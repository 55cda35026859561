"""Rule books: drafted, proved, rehearsed, published, compiled; and the tools, whose state is beside every book."""
