"""Keeping system libraries from writing their complaints past the program to the terminal."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def hushed() -> Iterator[None]:
    """Nothing reaches standard error within; the program has words of its own."""
    if sys.stderr is not None:
        sys.stderr.flush()
    try:
        kept = os.dup(2)
    except OSError:
        # It is closed already: there is nothing to keep quiet.
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)
