"""`new_file`: a file that must not be there yet, made before its text is known."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from engine.commands.options import UsageError
from engine.errors import reason_of


@contextmanager
def new_file(path: Path | None) -> Iterator[Callable[[str], None]]:
    """Context with a function that writes a text to a new file; without a path it does nothing.

    The file is removed where nothing, or not all, was written. Raises UsageError for a file that is
    there already or that cannot be written.
    """
    if path is None:
        yield lambda _: None
        return
    try:
        file = path.open("xb", buffering=0)
    except FileExistsError as error:
        raise UsageError(f"{path}: expected a new file, found one that is there already") from error
    except OSError as error:
        raise _refusal(path, error) from error
    done = False

    def write(text: str) -> None:
        nonlocal done
        left = memoryview(text.encode())
        try:
            while left:
                left = left[file.write(left) :]
        except OSError as error:
            raise _refusal(path, error) from error
        done = True

    try:
        with file:
            yield write
    finally:
        if not done:
            with suppress(OSError):
                path.unlink()


def _refusal(path: Path, error: OSError) -> UsageError:
    return UsageError(f"{path}: expected a file to write to, found: {reason_of(error)}")
