"""Ids, figures and sentences in a paper's language."""
