"""Rungbook: write, check, tailor and print staged rehabilitation protocols.

Importing this package loads nothing outside the standard library, so that
``python3 -m authoring.bootstrap`` runs before any dependency is installed.
"""

__version__ = "0.1.0"
