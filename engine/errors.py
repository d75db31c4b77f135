"""Errors that end the program with one line, of parts that are slow to import."""

from __future__ import annotations


class DisplayError(Exception):
    """No window can be opened; the text is one line for the person."""
