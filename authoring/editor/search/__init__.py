"""Full-text search over the cards and protocols of a library, with typos forgiven. No Qt here."""
