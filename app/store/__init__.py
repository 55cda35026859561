"""What is kept, in SQLite. One file per aggregate; functions take the open database. No decision is made here."""
