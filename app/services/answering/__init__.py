"""What the desk is asked of one specification, and answers. Nothing is saved here."""
