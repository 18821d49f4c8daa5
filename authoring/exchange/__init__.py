"""Compare and merge documents by the identity of their parts."""
