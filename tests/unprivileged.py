"""Being somebody who may not read and write everything."""

import os
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def unprivileged() -> Iterator[None]:
    """Without the rights of root, whom no file is kept from."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)
