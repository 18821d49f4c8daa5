"""One broken library for every check: code, library, and the place where it must be said."""

from tests.checks.broken_cards import ROWS as CARDS
from tests.checks.broken_protocols import ROWS as PROTOCOLS

BROKEN = [*PROTOCOLS, *CARDS]
