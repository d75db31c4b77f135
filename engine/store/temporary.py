"""`temporary_folder`: a folder for work on copies of a history, removed at its end."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from engine.errors import reason_of
from engine.store.error import StoreError


@contextmanager
def temporary_folder() -> Iterator[Path]:
    """Folder that is deleted when the context ends. Raises StoreError if none can be made."""
    try:
        folder = TemporaryDirectory(prefix="stillfoot-", ignore_cleanup_errors=True)
    except OSError as error:
        raise StoreError(
            f"temporary folder: expected a place to make one, found: {reason_of(error)}"
        ) from error
    with folder as name:
        yield Path(name)
