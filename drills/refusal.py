"""The error that ends the program with one line: it was given something it cannot use."""

from __future__ import annotations


class Refusal(Exception):
    """The text is one line for the person: what, where, expected, found. The exit code is 2."""
