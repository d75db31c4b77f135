"""Error that ends the program with one line, as it was given something it cannot use."""

from __future__ import annotations

import os


class Refusal(Exception):
    """Input cannot be used; the text is one line: what, where, expected, found. Exit code 2."""


def reason_of(error: OSError) -> str:
    """Reason that the system gives for an error, in a few words such as "Permission denied".

    Told by its number: on Windows the error's own words are in the user's language.
    """
    return os.strerror(error.errno) if error.errno else str(error)
