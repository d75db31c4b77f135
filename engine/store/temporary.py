"""Temporary folders for histories that nobody keeps."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from engine.errors import reason_of
from engine.store.error import StoreError


@contextmanager
def temporary_folder(parent: Path | None = None) -> Iterator[Path]:
    """Context with a new folder, which is deleted with all that is in it when the context ends.

    `parent` is the folder to make it in; None for the system's own for such files. Raises
    StoreError if none can be made.
    """
    try:
        folder = tempfile.TemporaryDirectory(
            prefix="stillfoot-", dir=parent, ignore_cleanup_errors=True
        )
    except OSError as error:
        raise StoreError(
            f"temporary folder: expected a place to make one, found: {reason_of(error)}"
        ) from error
    with folder as name:
        yield Path(name)
