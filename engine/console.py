"""What is said on standard output and standard error, also where one is closed, full or narrow."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from typing import TextIO
from unicodedata import category

from drills.refusal import Refusal


class OutputError(Refusal):
    """Standard output cannot be written; the text is one line for the person."""


def say(text: str) -> None:
    """Write a text to standard output, at once.

    Raises OutputError, or BrokenPipeError where whoever read it has gone.
    """
    stream = sys.stdout
    if stream is None or stream.closed:
        raise OutputError("standard output: expected a place to write to, found it closed")
    try:
        _write(stream, text)
    except BrokenPipeError:
        _give_up(stream)
        raise
    except OSError as error:
        _give_up(stream)
        raise OutputError(
            f"standard output: expected a place to write to, found: {error.strerror}"
        ) from error


def warn(text: str) -> None:
    """Write a text as one line to standard error, where there is any."""
    stream = sys.stderr
    if stream is None or stream.closed:
        return
    try:
        _write(stream, f"stillfoot: {one_line(text)}\n")
    except OSError:
        _give_up(stream)


def one_line(text: str) -> str:
    """A text on one line, with what no screen can show written as an escape."""
    return "".join(
        sign.encode("unicode_escape").decode() if category(sign) in ("Cc", "Cs") else sign
        for sign in " ".join(text.splitlines())
    )


def _write(stream: TextIO, text: str) -> None:
    encoding = stream.encoding or "utf-8"
    stream.write(text.encode(encoding, "backslashreplace").decode(encoding))
    stream.flush()


def _give_up(stream: TextIO) -> None:
    """Let what is still to be written go nowhere, or the interpreter tries again as it ends."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
