"""Lists, as a PDF and for a spreadsheet."""
