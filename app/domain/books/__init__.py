"""Rule books as they are kept, drafted and rehearsed; the state of the tools beside them."""
