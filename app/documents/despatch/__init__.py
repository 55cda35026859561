"""The papers that go with a shell."""
