"""Error that ends the program with one line, as it was given something it cannot use."""

from __future__ import annotations


class Refusal(Exception):
    """Input cannot be used; the text is one line: what, where, expected, found. Exit code 2."""
