"""The program where nobody may see a console: what ends it is shown in a message box too."""

from __future__ import annotations

import os
import sys
import tempfile
import traceback
from contextlib import suppress

from engine import __version__
from engine.commands.loading import loading
from engine.commands.stopping import Stopping, ended_by_signals
from engine.console import one_line, warn

FAILED = 1
"""Exit code after an error of the program itself, as Python has it."""


def run_boxed(stopping: Stopping) -> int:
    """Run stillfoot with the arguments of the process; return the exit code.

    What ends it with an error is told in one line on standard error, if there is one, and in a box,
    unless `stopping` says that a signal ended it. The traceback of an error that nobody expected is
    written to a new file, which the line names.
    """
    try:
        with loading():
            from engine.commands.main import main

        return main(refuse=tell, stopping=stopping)
    except Exception as error:
        if not stopping.asked:
            tell(_unexpected(error))
        return FAILED


def tell(text: str) -> None:
    """Tell one line on standard error and in a box, where there are such; returns once closed."""
    warn(text)
    # An installation without pygame, or a system without a display, shows no box.
    with suppress(Exception), ended_by_signals():
        from engine.stage.message_box import show_box

        show_box(one_line(text))


def _unexpected(error: Exception) -> str:
    """Line for an error of the program itself, which is being handled."""
    line = f"an error of stillfoot itself: {type(error).__name__}: {error}"
    try:
        number, path = tempfile.mkstemp(".txt", "stillfoot-error-")
        with os.fdopen(number, "w", encoding="utf-8", newline="\n") as file:
            file.write(f"stillfoot {__version__}, Python {sys.version}\n{traceback.format_exc()}")
    except OSError:
        return line
    return f"{line} (please report it with {path})"
