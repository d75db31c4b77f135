"""Running without the rights of root, and a folder that is not closed to who has none."""

import codecs
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


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


@contextmanager
def reachable_folder() -> Iterator[Path]:
    """A folder that every user can reach; it is removed at the end, even if it was closed."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        try:
            yield folder
        finally:
            folder.chmod(0o755)
