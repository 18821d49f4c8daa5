"""One broken library for every check: code, library, and the place where it must be said."""

from tests.checks.broken_cards import ROWS as CARDS
from tests.checks.broken_protocols import ROWS as PROTOCOLS
from tests.checks.by_set_cases import BROKEN_ROWS

BROKEN = [*PROTOCOLS, *CARDS, *BROKEN_ROWS]
