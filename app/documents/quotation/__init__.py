"""The quotation and the sheets that go with it."""
