"""Who a shell is for, and through whom: customers, who of them may be one, dealers."""
