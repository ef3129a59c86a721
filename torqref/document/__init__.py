"""Reads the documents people write: TOML with places, problems as values, nearest known word, escaping."""
