"""Full disk, simulated by a limit on the size of files."""

from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_file_longer(size: int) -> Iterator[None]:
    """Let no file of this process grow beyond `size` bytes, as on a full disk."""
    import resource  # Where there is none, tests are left out: see tests/needs.py.

    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
