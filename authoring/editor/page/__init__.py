"""The page room: the handout as it prints, saved and printed from here."""
