"""First letter of a text: a capital at the start of a sentence, a small letter within one."""

from __future__ import annotations


def capitalised(text: str) -> str:
    """Text with a capital first letter, the rest as it is; empty for an empty text."""
    return text[:1].upper() + text[1:]


def uncapitalised(text: str) -> str:
    """Text with a small first letter, the rest as it is; empty for an empty text."""
    return text[:1].lower() + text[1:]
