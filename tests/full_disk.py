"""A disk without room."""

import resource
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_file_longer(size: int) -> Iterator[None]:
    """While no file of this process may grow longer than so many bytes, as on a full disk."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
