"""Running without the rights of root."""

import codecs
import os
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def unprivileged() -> Iterator[None]:
    """Drop the rights of root, who may read and write every file, for a while."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    # Loaded at its first use, from files of Python's own that others may not be able to read.
    codecs.lookup("unicode_escape")
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)
