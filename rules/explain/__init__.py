"""Why a choice can't be, why one stands as it does, and what is nearest."""
