"""How every paper of the firm is set: sheet, faces, styles, tables, and what stands where."""
