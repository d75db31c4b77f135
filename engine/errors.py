"""Errors of modules that are slow to import, and the reason of an error of the system."""

from __future__ import annotations

import os

from drills.refusal import Refusal


class DisplayError(Refusal):
    """No window of the game can be opened. The message is one line for the user."""


def reason_of(error: OSError) -> str:
    """Reason that the system gives for an error, in a few words such as "Permission denied".

    Told by its number: on Windows the error's own words are in the user's language.
    """
    return os.strerror(error.errno) if error.errno else str(error)
