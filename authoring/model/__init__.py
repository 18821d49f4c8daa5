"""The nouns of a rehabilitation programme, as immutable values.

No input or output and no Qt. Every class is frozen; an edit makes a new value.
Field facts (words, limits, patterns) are stated once, beside each field, and the
JSON Schemas and the format reference are generated from them.
"""
