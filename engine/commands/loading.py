"""`loading`: modules are loaded without garbage collection, which would delay the first picture."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def loading() -> Iterator[None]:
    """Context in which nothing is collected; what there is at its end is never looked through.

    Modules last as long as the process, so no collection finds anything to free in them.
    """
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()
