"""Error that ends the program with one line, as it was given something it cannot use."""

from __future__ import annotations


class Refusal(Exception):
    """Error for the person: its text is one line: what, where, expected, found. The exit code is
    2."""
