"""Spelling: dictionaries, a clinic's own words, unknown words of a library, marks in fields."""
