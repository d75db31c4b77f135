"""Text on standard output and standard error, which may be closed, full or of a narrow encoding.

Redirected to a file or a pipe, the same text is the same bytes on every system: UTF-8, and each
line ends in a line feed. A terminal is written to as it wants it. What turns the direction of
writing is written as an escape, wherever the text came from.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import TextIOWrapper
from typing import TextIO
from unicodedata import category

from drills.direction import unturned
from drills.refusal import Refusal
from engine.errors import reason_of


class OutputError(Refusal):
    """Standard output cannot be written. The message is one line for the user."""


def say(text: str) -> None:
    """Write text to standard output and flush it.

    Raises OutputError, or BrokenPipeError if its reader has closed it.
    """
    stream = sys.stdout
    if stream is None or stream.closed:
        raise OutputError("standard output: expected a place to write to, found it closed")
    try:
        _write(stream, text)
    except BrokenPipeError:
        _discard(stream)
        raise
    except OSError as error:
        _discard(stream)
        raise OutputError(
            f"standard output: expected a place to write to, found: {reason_of(error)}"
        ) from error


def warn(text: str) -> None:
    """Write text as one line to standard error, if it is open."""
    stream = sys.stderr
    if stream is None or stream.closed:
        return
    try:
        _write(stream, f"stillfoot: {one_line(text)}\n")
    except OSError:
        _discard(stream)


def one_line(text: str) -> str:
    """Text joined to one line; escapes stand for control characters, surrogates and turning marks.

    The marks are those that turn the direction of writing.
    """
    return "".join(
        letter.encode("unicode_escape").decode() if category(letter) in ("Cc", "Cs") else letter
        for letter in unturned(" ".join(text.splitlines()))
    )


def _write(stream: TextIO, text: str) -> None:
    if isinstance(stream, TextIOWrapper) and not stream.isatty():
        stream.reconfigure(encoding="utf-8", newline="\n")
    encoding = stream.encoding or "utf-8"
    stream.write(unturned(text).encode(encoding, "backslashreplace").decode(encoding))
    stream.flush()


def _discard(stream: TextIO) -> None:
    """Redirect a broken stream to the null device, or the interpreter flushes it again at exit."""
    with suppress(OSError, ValueError):
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, stream.fileno())
        os.close(null)
