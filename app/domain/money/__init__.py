"""What an order owes and what came: documents, payments, bank details, the export limit."""
