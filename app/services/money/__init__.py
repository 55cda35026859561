"""What an order owes and what came: documents, payments, refunds, and the books. No ledger."""
