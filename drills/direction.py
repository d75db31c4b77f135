"""Characters that turn the direction of writing: found in a text, or escaped where it is shown.

Behind one of them a name reads otherwise than it is, and a line of the terminal says something
else than was written (the explicit directional characters of Unicode Standard Annex 9).
"""

from __future__ import annotations

_TURNING = (
    "\u061c\u200e\u200f"  # Marks of a direction.
    "\u202a\u202b\u202c\u202d\u202e"  # Embeddings and overrides, and their end.
    "\u2066\u2067\u2068\u2069"  # Isolates, and their end.
)
_ESCAPES = {ord(mark): f"\\u{ord(mark):04x}" for mark in _TURNING}


def turns(text: str) -> bool:
    """Whether a text holds a character that turns the direction of writing."""
    return not set(_TURNING).isdisjoint(text)


def unturned(text: str) -> str:
    """The text with those characters as escapes, such as "\\u202e"."""
    return text.translate(_ESCAPES)
