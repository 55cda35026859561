"""The pure engine: what a rule book says about a specification. Its law is in README.md beside this file."""
