"""The service round the engine: `factory > web > services > store | documents > wording > domain > rules`."""
